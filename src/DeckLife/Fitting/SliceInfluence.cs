namespace DeckLife.Fitting;

/// <summary>What leaving out one slice does to a fit.</summary>
/// <param name="Row">The line of the file of the slice left out, the head counted.</param>
/// <param name="SurfaceChloride">Cs without it [kg/m³]; absent when no fit exists without it.</param>
/// <param name="DiffusionCoefficient">D without it [mm²/yr]; absent when no fit exists without it.</param>
public readonly record struct SliceInfluence(
    int Row,
    double? SurfaceChloride,
    double? DiffusionCoefficient
);
