namespace DeckLife.Projection;

/// <summary>Percentiles over draws and their Monte Carlo errors.</summary>
internal static class Percentiles
{
    /// <summary>A percentile of sorted values, linear between order statistics.</summary>
    /// <param name="sorted">Values in rising order; infinite ones stand for "not reached".</param>
    /// <param name="probability">The percentile as a fraction.</param>
    /// <returns>The percentile; infinite where a value that it needs is infinite.</returns>
    public static double At(ReadOnlySpan<double> sorted, double probability)
    {
        var place = Math.Clamp(probability, 0, 1) * (sorted.Length - 1);
        var lower = (int)Math.Floor(place);
        var upper = Math.Min(lower + 1, sorted.Length - 1);
        var weight = place - lower;
        return weight == 0 || sorted[lower] == sorted[upper]
            ? sorted[lower]
            : sorted[lower] + weight * (sorted[upper] - sorted[lower]);
    }

    /// <summary>Standard error of a percentile, free of any assumption about the distribution.</summary>
    /// <remarks>
    /// The number of draws below a percentile is binomial: half the distance between the order statistics one
    /// standard deviation to either side. Source: David and Nagaraja, Order Statistics, ch. 7 (memory).
    /// </remarks>
    public static double ErrorAt(ReadOnlySpan<double> sorted, double probability)
    {
        var step = Math.Sqrt(probability * (1 - probability) / sorted.Length);
        return 0.5 * (At(sorted, probability + step) - At(sorted, probability - step));
    }

    /// <summary>The band of one quantity over the draws.</summary>
    /// <param name="values">One value a draw; sorted in place.</param>
    public static PercentileBand Band(double[] values)
    {
        Array.Sort(values);
        return new(At(values, 0.05), At(values, 0.5), At(values, 0.95))
        {
            ErrorOfP05 = ErrorAt(values, 0.05),
            ErrorOfP50 = ErrorAt(values, 0.5),
            ErrorOfP95 = ErrorAt(values, 0.95),
        };
    }

    /// <summary>The service life over the draws.</summary>
    /// <param name="criterion">The end criterion in words.</param>
    /// <param name="lives">One life a draw [yr], infinite where the horizon comes first; sorted in place.</param>
    public static ServiceLife Life(string criterion, double[] lives)
    {
        Array.Sort(lives);
        var notReached = lives.Count(double.IsPositiveInfinity) / (double)lives.Length;
        return new(
            criterion,
            Finite(At(lives, 0.05)),
            Finite(At(lives, 0.5)),
            Finite(At(lives, 0.95)),
            notReached
        )
        {
            ErrorOfP05Yr = Finite(ErrorAt(lives, 0.05)),
            ErrorOfP50Yr = Finite(ErrorAt(lives, 0.5)),
            ErrorOfP95Yr = Finite(ErrorAt(lives, 0.95)),
        };
    }

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
