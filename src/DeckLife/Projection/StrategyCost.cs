using System.Collections.Immutable;

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
)
{
    /// <summary>Mean present value over the draws: strategies are ranked by it.</summary>
    public double MeanPresentValue { get; init; }

    /// <summary>Present value of what the agency pays, with its band.</summary>
    public PercentileBand Agency { get; init; }

    /// <summary>Present value of what users bear, with its band; absent where no price is theirs.</summary>
    public PercentileBand? Users { get; init; }

    /// <summary>Present value of the interventions alone, with its band.</summary>
    public PercentileBand FirstCost { get; init; }

    /// <summary>Mean present value of each item over the draws; they add up to the mean of the whole.</summary>
    public ImmutableArray<CostItem> Items { get; init; } = [];

    /// <inheritdoc/>
    public bool Equals(StrategyCost? other) =>
        other is not null
        && PresentValue == other.PresentValue
        && EquivalentAnnual == other.EquivalentAnnual
        && MeanPresentValue == other.MeanPresentValue
        && Currency == other.Currency
        && PriceYear == other.PriceYear
        && Agency == other.Agency
        && Users == other.Users
        && FirstCost == other.FirstCost
        && Items.AsSpan().SequenceEqual(other.Items.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() =>
        HashCode.Combine(PresentValue, EquivalentAnnual, Currency, PriceYear, Items.Length);
}
