namespace DeckLife.Fitting;

/// <summary>What the deck fit says of one core: drawn towards the deck as far as its own slices are weak.</summary>
/// <param name="Core">The core's name.</param>
/// <param name="ExposureYears">Its exposure age [yr].</param>
/// <param name="SurfaceChloride">Surface content [kg/m³].</param>
/// <param name="DiffusionCoefficient">Apparent diffusion coefficient at the core's own age [mm²/yr].</param>
/// <param name="IsTargeted">Whether it was taken where trouble was seen.</param>
public sealed record DeckCoreEstimate(
    string Core,
    double ExposureYears,
    Estimate SurfaceChloride,
    Estimate DiffusionCoefficient,
    bool IsTargeted
);
