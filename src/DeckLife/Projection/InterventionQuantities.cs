using System.Collections.Immutable;

namespace DeckLife.Projection;

/// <summary>What one intervention takes off, exposes, repairs and places, over the whole deck.</summary>
public sealed record InterventionQuantities
{
    /// <summary>When, from the survey [yr]; the median where it waits for an overlay to end.</summary>
    public required double AtYr { get; init; }

    /// <summary>Probability that it comes about within the horizon; below 1 only where it waits for an overlay to end.</summary>
    public double Probability { get; init; } = 1;

    /// <summary>Planned depths of removal with the share of the area that each is for (median draw).</summary>
    public required ImmutableArray<DepthClass> DepthClasses { get; init; }

    /// <summary>Mean depth of old concrete taken off over the deck, undercutting and repairs included [mm].</summary>
    public required PercentileBand MeanRemovalMm { get; init; }

    /// <summary>Mean thickness of new material placed over the deck, refilled repairs included [mm].</summary>
    public PercentileBand MeanPlacedMm { get; init; }

    /// <summary>Share of the area that a sounding before the work would find damaged; what re-sounding adds is the rest of <see cref="RepairedFraction"/>.</summary>
    public PercentileBand SoundedFraction { get; init; }

    /// <summary>Share of the area removed to under the bars for its half-cell potential, damage and undercutting left out.</summary>
    public PercentileBand RemovedByPotentialFraction { get; init; }

    /// <summary>Share of the top bars that lie more than half exposed at once: repairs, undercut bars, removal by potential.</summary>
    public PercentileBand ExposedAtOnceFraction { get; init; }

    /// <summary>Share of the area in the rim around what was removed to under the bars.</summary>
    public PercentileBand RimFraction { get; init; }

    /// <summary>Concrete left during the work where nothing but the planned depth comes off, least over the deck [mm], median draw.</summary>
    public double LeastRemainingMm { get; init; }

    /// <summary>Concrete left during the work where removal goes on to under the bars, on average [mm], median draw.</summary>
    public double RemainingUnderBarsMm { get; init; }

    /// <summary>Share of the area damaged at that moment and repaired.</summary>
    public required PercentileBand RepairedFraction { get; init; }

    /// <summary>Share of the area where removal goes on to under the bar, repairs left out.</summary>
    public required PercentileBand UndercutFraction { get; init; }

    /// <summary>Share of the area whose bars the removal would strike: cover below the planned depth and its tolerance.</summary>
    public required PercentileBand StruckFraction { get; init; }

    /// <summary>Rise of the finished grade since the survey where nothing but the least planned depth is taken off [mm]; negative: lower.</summary>
    public required double GradeRiseMm { get; init; }

    /// <summary>Dead load added since the survey [kN/m²], mean over the deck in the median draw; absent where a density is not known.</summary>
    public double? AddedDeadLoadKnPerM2 { get; init; }
}
