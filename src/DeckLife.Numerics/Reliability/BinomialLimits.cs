using DeckLife.Numerics.Distributions;

namespace DeckLife.Numerics.Reliability;

/// <summary>Exact limits of a probability from counted events.</summary>
/// <remarks>
/// Equation: lower is the α/2 quantile of beta(k, n - k + 1), upper the 1 - α/2 quantile of beta(k + 1, n - k).
/// Source: Clopper &amp; Pearson, Biometrika 26 (1934) 404-413. Checked by: ReliabilityTests, and reliability/clopper-pearson of the reference checks.
/// </remarks>
public static class BinomialLimits
{
    /// <summary>The estimate k/n with exact limits.</summary>
    /// <param name="events">Number of events k, from 0 to n.</param>
    /// <param name="draws">Number of independent draws n, at least 1.</param>
    /// <param name="level">Confidence level, between 0 and 1.</param>
    public static ProbabilityEstimate ClopperPearson(long events, long draws, double level = 0.95)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(draws, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(events);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(events, draws);
        if (!(level > 0 && level < 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(level),
                level,
                "A confidence level lies between 0 and 1."
            );
        }

        var half = 0.5 * (1 - level);
        var p = (double)events / draws;
        return new()
        {
            Value = p,
            StandardError = Math.Sqrt(p * (1 - p) / draws),
            Lower =
                events == 0
                    ? 0
                    : BetaDistribution.FromShapes(events, draws - events + 1).Quantile(half),
            Upper =
                events == draws
                    ? 1
                    : BetaDistribution
                        .FromShapes(events + 1, draws - events)
                        .QuantileOfExceedance(half),
            Level = level,
            LimitMethod = "Clopper-Pearson, exact",
            Draws = draws,
            Events = events,
        };
    }
}
