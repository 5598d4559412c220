namespace DeckLife.Projection;

/// <summary>5th, 50th and 95th percentile over what is not known, with the Monte Carlo error of the median.</summary>
/// <param name="P05">5th percentile.</param>
/// <param name="P50">Median.</param>
/// <param name="P95">95th percentile.</param>
public readonly record struct PercentileBand(double P05, double P50, double P95);
