namespace DeckLife.Projection;

/// <summary>Time from the survey until a stated end criterion is met; a percentile beyond the horizon is absent.</summary>
/// <param name="Criterion">The end criterion in words.</param>
/// <param name="P05Yr">5th percentile [yr].</param>
/// <param name="P50Yr">Median [yr].</param>
/// <param name="P95Yr">95th percentile [yr].</param>
/// <param name="NotReachedProbability">Probability that the criterion is not met within the horizon.</param>
public sealed record ServiceLife(
    string Criterion,
    double? P05Yr,
    double? P50Yr,
    double? P95Yr,
    double NotReachedProbability
)
{
    /// <summary>Monte Carlo standard error of <see cref="P05Yr"/> [yr], where it exists.</summary>
    public double? ErrorOfP05Yr { get; init; }

    /// <summary>Monte Carlo standard error of <see cref="P50Yr"/> [yr], where it exists.</summary>
    public double? ErrorOfP50Yr { get; init; }

    /// <summary>Monte Carlo standard error of <see cref="P95Yr"/> [yr], where it exists.</summary>
    public double? ErrorOfP95Yr { get; init; }
}
