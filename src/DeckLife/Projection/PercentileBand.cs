namespace DeckLife.Projection;

/// <summary>5th, 50th and 95th percentile over what is not known, with the Monte Carlo error of each.</summary>
/// <param name="P05">5th percentile.</param>
/// <param name="P50">Median.</param>
/// <param name="P95">95th percentile.</param>
public readonly record struct PercentileBand(double P05, double P50, double P95)
{
    /// <summary>Monte Carlo standard error of <see cref="P05"/>: what a larger projection would still change.</summary>
    public double ErrorOfP05 { get; init; }

    /// <summary>Monte Carlo standard error of <see cref="P50"/>.</summary>
    public double ErrorOfP50 { get; init; }

    /// <summary>Monte Carlo standard error of <see cref="P95"/>.</summary>
    public double ErrorOfP95 { get; init; }
}
