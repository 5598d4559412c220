namespace DeckLife.Numerics.Kernels;

/// <summary>What a segment of a section is for; its number of cells follows from it and the level.</summary>
internal enum SegmentRole
{
    /// <summary>From the surface to the point, where no interface lies between.</summary>
    Cover,

    /// <summary>A whole layer, or the part of one, away from the point.</summary>
    Far,

    /// <summary>The part of a neighbouring layer next to the interface, or of the point's own layer next to the point.</summary>
    Near,

    /// <summary>Between the point and an interface.</summary>
    Gap,

    /// <summary>The upper part of what lies deep under the point.</summary>
    Deep,

    /// <summary>The part next to the bottom.</summary>
    Deepest,
}
