using DeckLife.Quantities;

namespace DeckLife.Profiles;

/// <summary>One ground slice of a core: its depth range and the laboratory's chloride content of it.</summary>
public sealed record ChlorideSlice
{
    /// <summary>The line of the file it came from, the head counted as line 1; 0 when it came from no file.</summary>
    public int Row { get; init; }

    /// <summary>Top of the slice under the surface [mm].</summary>
    public required Depth Top { get; init; }

    /// <summary>Bottom of the slice under the surface [mm]; equal to <see cref="Top"/> when only the centre is known.</summary>
    public required Depth Bottom { get; init; }

    /// <summary>The content, or the detection limit of a non-detect [kg/m³].</summary>
    public required ChlorideContent Content { get; init; }

    /// <summary>Whether the laboratory found less than <see cref="Content"/>.</summary>
    public bool IsNonDetect { get; init; }

    /// <summary>Standard deviation of the content, where the laboratory gives one [kg/m³].</summary>
    public double? StandardDeviation { get; init; }

    /// <summary>Number of determinations that <see cref="Content"/> is the mean of.</summary>
    public int Replicates { get; init; } = 1;

    /// <summary>Whether only the centre of the slice is known, not its thickness.</summary>
    public bool IsCentreOnly => Top == Bottom;

    /// <summary>The centre of the slice [mm].</summary>
    public double CentreMm => 0.5 * (Top.Millimetres + Bottom.Millimetres);
}
