using System.Collections.Immutable;
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
    public const int FewestReadings = 5;

    /// <summary>Fewest readings whose own shape is used.</summary>
    public const int FewestForShape = 30;

    internal SmoothedReadings? Shape { get; init; }

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
    /// <returns>The distribution of cover over the deck [mm], truncated at 0.</returns>
    /// <remarks>
    /// Equation: sd² = (n − 1)s²/χ²(n − 1); mean ~ N(sample mean, sd²/n).
    /// Source: Gelman, Carlin, Stern and Rubin, Bayesian Data Analysis, normal data with the usual non-informative prior (memory).
    /// Valid for: readings spread over the deck; readings close together count for less than they do here.
    /// </remarks>
    public PointDistribution Draw(double spreadUniform, double meanScore)
    {
        if (Readings == 0 || StandardDeviationMm == 0)
        {
            return PointDistribution.NormalAboveZero(MeanMm, StandardDeviationMm);
        }

        var freedom = Readings - 1.0;
        var sd =
            StandardDeviationMm * Math.Sqrt(freedom / ChiSquared.InvCDF(freedom, spreadUniform));
        var mean = MeanMm + meanScore * sd / Math.Sqrt(Readings);
        return Shape is { } readings
            ? PointDistribution.FromReadings(readings, Math.Max(mean, 1), sd)
            : PointDistribution.NormalAboveZero(Math.Max(mean, 1), sd);
    }
}
