namespace DeckLife.Projection;

/// <summary>What one intervention does in one draw of what is not known.</summary>
internal sealed class InterventionDraw
{
    /// <summary>Mean depth of old concrete taken off [mm].</summary>
    public double MeanRemovalMm { get; set; }

    /// <summary>Mean thickness of new material placed [mm].</summary>
    public double MeanPlacedMm { get; set; }

    /// <summary>Share of the area damaged and repaired.</summary>
    public double Repaired { get; set; }

    /// <summary>Share of the area damaged and repaired that had not been patched since the last full-width overlay.</summary>
    public double NewlyRepaired { get; set; }

    /// <summary>Share of the area undercut, repairs left out.</summary>
    public double Undercut { get; set; }

    /// <summary>Share of the area removed to under the bars for its potential, damage and undercutting left out.</summary>
    public double RemovedByPotential { get; set; }

    /// <summary>Depth taken off beyond the planned one, mean over the deck [mm].</summary>
    public double ExtraRemovalMm { get; set; }

    /// <summary>Share of the area in the rim around repairs, from this intervention on.</summary>
    public double RimFraction { get; set; }

    /// <summary>When [yr].</summary>
    public double AtYr { get; set; }

    /// <summary>Load added since the survey, mean over the deck [kg/m²]; 0 where a density is not known.</summary>
    public double AddedKgPerM2 { get; set; }

    /// <summary>Thickness left during the work where nothing but the deepest planned class comes off, least over the deck [mm].</summary>
    public double LeastRemainingMm { get; set; }

    /// <summary>Thickness left during the work where concrete comes out to under the bars, mean over the deck as if it were everywhere [mm].</summary>
    public double RemainingUnderBarsMm { get; set; }

    /// <summary>Share of the bars struck.</summary>
    public double Struck { get; set; }

    /// <summary>Share of the area with content above the limit below the depth taken off.</summary>
    public double AboveLimit { get; set; }

    /// <summary>Share of the area in each depth class.</summary>
    public required double[] ClassShares { get; init; }
}
