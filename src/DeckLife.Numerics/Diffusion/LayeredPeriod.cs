namespace DeckLife.Numerics.Diffusion;

/// <summary>The time between two events: what lies in the section and what holds at the surface.</summary>
internal sealed record LayeredPeriod(
    double Start,
    double End,
    IReadOnlyList<LayeredPiece> Stack,
    BoundaryCondition Surface
);
