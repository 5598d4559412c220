namespace DeckLife.Projection;

/// <summary>What a strategy costs at one real discount rate.</summary>
/// <param name="RatePerYr">Real discount rate a year, as a fraction.</param>
/// <param name="PresentValue">Present value with its band; year 0 is not discounted.</param>
/// <param name="EquivalentAnnual">Equivalent annual cost of the median present value.</param>
/// <param name="CheapestProbability">Probability that the strategy is the cheapest at this rate; absent where the end costs nothing.</param>
public sealed record CostAtRate(
    double RatePerYr,
    PercentileBand PresentValue,
    double EquivalentAnnual,
    double? CheapestProbability
);
