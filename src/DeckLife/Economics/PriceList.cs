using System.Collections.Immutable;
using DeckLife.Population;

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

    /// <summary>What is done at the end criterion before the deck is renewed, in order; without a price of renewal the last is repeated.</summary>
    public ImmutableArray<NextAction> AfterLimit { get; init; } = [];

    /// <summary>Growth of all prices a year beyond general inflation, as a fraction.</summary>
    public double GrowthPerYr { get; init; }

    /// <summary>Coefficient of variation of the level of all prices that the agency pays, lognormal: the market at the letting.</summary>
    public double LevelCoefficientOfVariation { get; init; }

    /// <summary>
    /// Unsound area that re-sounding on the day of the survey would find, relative to what the survey's sounding found: it stands in place of what
    /// the model takes the sounding to have missed. Damage that grows between survey and work is the model's own and not in it. Absent: the model's
    /// detection probability stands.
    /// </summary>
    public UncertainValue? QuantityGrowth { get; init; }

    /// <summary>Stages in which an intervention is built.</summary>
    public int Stages { get; init; } = 1;

    /// <summary>Days of closure for each stage, whatever its area.</summary>
    public double ClosureDaysPerStage { get; init; }

    /// <summary>Area of deck done in a day of closure [m²]; absent: area takes no days.</summary>
    public double? AreaPerClosureDayM2 { get; init; }

    /// <summary>Time between visits for interim repairs [yr]; absent: none.</summary>
    public double? InterimRepairEveryYr { get; init; }

    /// <summary>Whether reaching the end criterion costs anything: without, doing nothing would always be the cheapest.</summary>
    public bool PricesTheEnd =>
        !AfterLimit.IsEmpty || Items.Any(p => p.Basis == PriceBasis.RenewedArea && p.Amount > 0);

    /// <summary>Days of closure that an intervention takes.</summary>
    /// <param name="deckAreaM2">Area of the deck [m²].</param>
    public double ClosureDays(double deckAreaM2) =>
        (Stages * ClosureDaysPerStage) + (AreaPerClosureDayM2 is { } a ? deckAreaM2 / a : 0);
}
