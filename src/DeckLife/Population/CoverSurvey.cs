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

    /// <summary>Sums up the readings.</summary>
    /// <param name="covers">The readings.</param>
    /// <returns>The summary, or nothing where there are fewer than <see cref="FewestReadings"/>.</returns>
    public static CoverSurvey? FromReadings(ImmutableArray<CoverReading> covers)
    {
        if (covers.Length < FewestReadings)
        {
            return null;
        }

        var mean = covers.Average(c => c.Cover.Millimetres);
        var squares = covers.Sum(c => (c.Cover.Millimetres - mean) * (c.Cover.Millimetres - mean));
        return new(covers.Length, mean, Math.Sqrt(squares / (covers.Length - 1)));
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
        return PointDistribution.NormalAboveZero(Math.Max(mean, 1), sd);
    }
}
