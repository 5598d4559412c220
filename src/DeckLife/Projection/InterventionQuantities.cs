using System.Collections.Immutable;

namespace DeckLife.Projection;

/// <summary>What one intervention takes off, exposes, repairs and places, over the whole deck.</summary>
public sealed record InterventionQuantities
{
    /// <summary>When, from the survey [yr].</summary>
    public required double AtYr { get; init; }

    /// <summary>Planned depths of removal with the share of the area that each is for (median draw).</summary>
    public required ImmutableArray<DepthClass> DepthClasses { get; init; }

    /// <summary>Mean depth of old concrete taken off over the deck, undercutting and repairs included [mm].</summary>
    public required PercentileBand MeanRemovalMm { get; init; }

    /// <summary>Share of the area damaged at that moment and repaired.</summary>
    public required PercentileBand RepairedFraction { get; init; }

    /// <summary>Share of the area where removal goes on to under the bar, repairs left out.</summary>
    public required PercentileBand UndercutFraction { get; init; }

    /// <summary>Share of the area whose bars the removal would strike: cover below the planned depth and its tolerance.</summary>
    public required PercentileBand StruckFraction { get; init; }

    /// <summary>Rise of the finished grade where nothing but the least planned depth is taken off [mm]; negative: lower.</summary>
    public required double GradeRiseMm { get; init; }

    /// <summary>Added dead load [kN/m²], mean over the deck in the median draw; absent where a density is not known.</summary>
    public double? AddedDeadLoadKnPerM2 { get; init; }
}
