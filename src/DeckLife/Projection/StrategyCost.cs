namespace DeckLife.Projection;

/// <summary>What a strategy costs over the horizon.</summary>
/// <param name="PresentValue">Present value with its band over what is not known; year 0 is not discounted.</param>
/// <param name="EquivalentAnnual">Equivalent annual cost of the median present value.</param>
/// <param name="Currency">ISO 4217 code.</param>
/// <param name="PriceYear">Year of the prices.</param>
public sealed record StrategyCost(
    PercentileBand PresentValue,
    double EquivalentAnnual,
    string Currency,
    int PriceYear
);
