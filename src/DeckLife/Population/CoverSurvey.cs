using System.Collections.Immutable;
using DeckLife.Numerics.SpatialStatistics;
using DeckLife.Surveys;
using MathNet.Numerics.Distributions;

namespace DeckLife.Population;

/// <summary>What the cover readings say about the deck's covers, and how well they say it.</summary>
/// <param name="Readings">Number of readings; 0 where the mean and deviation were stated instead.</param>
/// <param name="MeanMm">Mean [mm].</param>
/// <param name="StandardDeviationMm">Standard deviation [mm].</param>
public sealed record CoverSurvey(int Readings, double MeanMm, double StandardDeviationMm)
{
    /// <summary>Fewest readings from which a spread is estimated.</summary>
    /// <remarks>Judgement: the limits of a standard deviation from 5 readings are 0.6 and 2.9 times it (χ² with 4 degrees); what is drawn has that spread.</remarks>
    public const int FewestReadings = 5;

    /// <summary>Fewest readings whose own shape is used.</summary>
    /// <remarks>Judgement: from 30 readings the 5 % point of the covers still rests on one or two of them; fewer have only a mean and a deviation.</remarks>
    public const int FewestForShape = 30;

    /// <summary>Number of independent readings that the survey is worth for the deck's mean; where positions are missing, the number itself.</summary>
    public double IndependentReadings { get; init; } = Readings;

    /// <summary>How the covers go together over the deck; absent where too few readings have positions.</summary>
    public ExponentialFieldEstimate? Field { get; init; }

    internal SmoothedReadings? Shape { get; init; }

    /// <summary>Sums up the readings of a deck, and how they go together over its plan.</summary>
    /// <param name="deck">The deck.</param>
    /// <returns>The summary, or nothing where there are fewer than <see cref="FewestReadings"/>.</returns>
    public static CoverSurvey? Of(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        if (FromReadings(deck.Covers, deck.CoverShape) is not { } survey)
        {
            return null;
        }

        if (
            !deck.Covers.All(c => c.X is not null && c.Y is not null)
            || DeckPlan.Of(deck) is not { } plan
        )
        {
            return survey;
        }

        double[] x = [.. deck.Covers.Select(c => c.X!.Value)],
            y = [.. deck.Covers.Select(c => c.Y!.Value)];
        var field = ExponentialField.Estimate(
            x,
            y,
            [.. deck.Covers.Select(c => c.Cover.Millimetres)],
            deck.Analysis.Threads ?? 0
        );
        return field is { IsShown: true }
            ? survey with
            {
                Field = field,
                IndependentReadings = SpatialReadings.EffectiveNumber(
                    x,
                    y,
                    field.Length,
                    field.NuggetShare,
                    plan
                ),
            }
            : survey with
            {
                Field = field,
            };
    }

    /// <summary>Sums up the readings.</summary>
    /// <param name="covers">The readings.</param>
    /// <param name="shape">The shape that they are given.</param>
    /// <returns>The summary, or nothing where there are fewer than <see cref="FewestReadings"/>.</returns>
    public static CoverSurvey? FromReadings(
        ImmutableArray<CoverReading> covers,
        CoverShape shape = CoverShape.Normal
    )
    {
        if (covers.Length < FewestReadings)
        {
            return null;
        }

        var mean = covers.Average(c => c.Cover.Millimetres);
        var squares = covers.Sum(c => (c.Cover.Millimetres - mean) * (c.Cover.Millimetres - mean));
        var sd = Math.Sqrt(squares / (covers.Length - 1));
        return new(covers.Length, mean, sd)
        {
            Shape =
                shape == CoverShape.Readings && sd > 0 && covers.Length >= FewestForShape
                    ? new(covers.Select(c => c.Cover.Millimetres))
                    : null,
        };
    }

    /// <summary>The distribution of cover with another mean or spread, in the shape of the readings.</summary>
    /// <param name="meanMm">Mean [mm]; absent: that of the readings.</param>
    /// <param name="standardDeviationMm">Standard deviation [mm]; absent: that of the readings.</param>
    internal PointDistribution With(double? meanMm, double? standardDeviationMm)
    {
        var mean = meanMm ?? MeanMm;
        var deviation = standardDeviationMm ?? StandardDeviationMm;
        return Shape is { } readings
            ? PointDistribution.FromReadings(readings, mean, deviation)
            : PointDistribution.NormalAboveZero(mean, deviation);
    }

    /// <summary>One draw of what the deck's mean cover and its spread may be, given the readings.</summary>
    /// <param name="spreadUniform">A number between 0 and 1 for the deviation.</param>
    /// <param name="meanScore">A standard normal score for the mean.</param>
    /// <returns>The distribution of cover over the deck [mm], truncated at 0; its mean before the cut is held at 1 mm or more.</returns>
    /// <remarks>
    /// Equation: sd² = (n − 1)s²/χ²(n − 1); mean ~ N(sample mean, sd²/n), n being <see cref="IndependentReadings"/>, at least 2.
    /// Source: Gelman, Carlin, Stern and Rubin, Bayesian Data Analysis, normal data with the usual non-informative prior (memory).
    /// </remarks>
    public PointDistribution Draw(double spreadUniform, double meanScore)
    {
        if (Readings == 0 || StandardDeviationMm == 0)
        {
            return PointDistribution.NormalAboveZero(MeanMm, StandardDeviationMm);
        }

        var independent = Math.Max(2, IndependentReadings);
        var freedom = independent - 1;
        var sd =
            StandardDeviationMm * Math.Sqrt(freedom / ChiSquared.InvCDF(freedom, spreadUniform));
        var mean = MeanMm + meanScore * sd / Math.Sqrt(independent);
        return Shape is { } readings
            ? PointDistribution.FromReadings(readings, Math.Max(mean, 1), sd)
            : PointDistribution.NormalAboveZero(Math.Max(mean, 1), sd);
    }
}
