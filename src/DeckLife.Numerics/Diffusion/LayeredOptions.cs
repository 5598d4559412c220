namespace DeckLife.Numerics.Diffusion;

/// <summary>How fine the layered solver works.</summary>
/// <remarks>
/// The tolerance decides the error; the other choices, made by trial, decide only at how coarse a level the work begins: with half of them a level less is
/// gone through. That the error is what it is said to be was tried on random cases (LayeredSolverCoverageTests, and 1200 of them in a study).
/// </remarks>
public sealed record LayeredOptions
{
    /// <summary>The error estimate is brought below this share of the largest content.</summary>
    public double RelativeTolerance { get; init; } = 2e-4;

    /// <summary>Largest number of halvings of mesh and steps.</summary>
    public int MaximumLevel { get; init; } = 6;

    /// <summary>Step in ln(time since the last sudden change) at the coarsest level.</summary>
    public double LogarithmicStep { get; init; } = 0.35;

    /// <summary>Growth of the mesh spacing with distance from a sharp point at the coarsest level.</summary>
    public double SpacingGrowth { get; init; } = 0.3;

    /// <summary>Spacing at a sharp point, in diffusion lengths √(∫D dt) up to the first time asked, at the coarsest level.</summary>
    public double SpacingAtSharpPoint { get; init; } = 0.35;

    /// <summary>
    /// Longest step at the coarsest level [yr]; absent: none. Needed where the layers' clocks run unevenly against one
    /// another within a year: content at an interface then follows the seasons, which longer steps average out.
    /// </summary>
    public double MaximumStep { get; init; } = double.PositiveInfinity;
}
