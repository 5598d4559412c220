using System.Collections.Immutable;

namespace DeckLife.Economics;

/// <summary>Prices in one currency and price year.</summary>
public sealed record PriceList
{
    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>Year of the prices.</summary>
    public required int PriceYear { get; init; }

    /// <summary>The prices.</summary>
    public required ImmutableArray<UnitPrice> Items { get; init; }

    /// <summary>Life of a renewed deck [yr], for the value that is left at the horizon; absent: nothing is left.</summary>
    public double? RenewalLifeYr { get; init; }
}
