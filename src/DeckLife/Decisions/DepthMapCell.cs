using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Projection;
using DeckLife.Quantities;

namespace DeckLife.Decisions;

/// <summary>One removal depth with one overlay: what it leads to, and whether it keeps the limits.</summary>
public sealed record DepthMapCell
{
    /// <summary>The strategy's name for a point of the map; absent for a case of the sweep.</summary>
    public string? Name { get; init; }

    /// <summary>Material of the overlay.</summary>
    public required string Material { get; init; }

    /// <summary>Depth taken off; for a rule with several depths the mean over the deck in the median draw.</summary>
    public required Depth Removal { get; init; }

    /// <summary>Thickness above the removed surface.</summary>
    public required Depth Thickness { get; init; }

    /// <summary>What it does to the deck; absent when it was refused.</summary>
    public StrategyProjection? Projection { get; init; }

    /// <summary>The draws behind it; absent when it was refused.</summary>
    public StrategyOutcomes? Outcomes { get; init; }

    /// <summary>Why it was refused.</summary>
    public Diagnostic? Refusal { get; init; }

    /// <summary>Mean over the draws of the years until the end criterion, those beyond the horizon counted as the horizon [yr].</summary>
    public double? ExpectedYears { get; init; }

    /// <summary>Mean present value over the draws, interventions and end; absent without prices.</summary>
    public double? ExpectedPresentValue { get; init; }

    /// <summary>Monte Carlo standard error of <see cref="ExpectedPresentValue"/>.</summary>
    public double? ErrorOfPresentValue { get; init; }

    /// <summary>Mean present value of the intervention alone; absent without prices.</summary>
    public double? FirstCost { get; init; }

    /// <summary>Thickness of old concrete left where removal goes deepest [mm].</summary>
    public double? RemainingMm { get; init; }

    /// <summary>Share of the bars exposed at once, undercut or repaired, in the median draw.</summary>
    public double? BarsExposed { get; init; }

    /// <summary>Distance between the removed surface and the bars that the stated share of the deck keeps [mm]; negative: bars stand out.</summary>
    public double? BarClearanceMm { get; init; }

    /// <summary>Limits that are not kept; empty where all are, or where none is stated.</summary>
    public ImmutableArray<LimitBreach> Broken { get; init; } = [];

    /// <summary>Whether it was projected and keeps every limit.</summary>
    public bool IsAllowed => Projection is not null && Broken.IsEmpty;

    /// <summary>Whether its planned depth or its repairs expose top bars, so that a structural check is needed; the projection's flags say which.</summary>
    public bool NeedsStructuralCheck => Projection?.StructuralFlags.Any() ?? false;

    /// <inheritdoc/>
    public bool Equals(DepthMapCell? other) =>
        other is not null
        && Name == other.Name
        && Material == other.Material
        && Removal == other.Removal
        && Thickness == other.Thickness
        && ExpectedPresentValue == other.ExpectedPresentValue
        && ExpectedYears == other.ExpectedYears;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Name, Material, Removal, Thickness);
}
