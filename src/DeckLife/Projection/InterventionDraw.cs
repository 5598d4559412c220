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

    /// <summary>Share of the area undercut, repairs left out.</summary>
    public double Undercut { get; set; }

    /// <summary>Share of the bars struck.</summary>
    public double Struck { get; set; }

    /// <summary>Share of the area with content above the limit below the depth taken off.</summary>
    public double AboveLimit { get; set; }

    /// <summary>Share of the area in each depth class.</summary>
    public required double[] ClassShares { get; init; }
}
