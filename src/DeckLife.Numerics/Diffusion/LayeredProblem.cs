namespace DeckLife.Numerics.Diffusion;

/// <summary>A layered section, what holds at its faces, and what is done to it.</summary>
public sealed class LayeredProblem
{
    /// <summary>Layers from the top, at least one.</summary>
    public required IReadOnlyList<DiffusionLayer> Layers { get; init; }

    /// <summary>Condition at the surface from the start on.</summary>
    public required BoundaryCondition Surface { get; init; }

    /// <summary>Condition at the bottom.</summary>
    public BoundaryCondition Bottom { get; init; } = BoundaryCondition.Sealed;

    /// <summary>Events; those of one time apply in the order listed.</summary>
    public IReadOnlyList<LayeredEvent> Events { get; init; } = [];

    /// <summary>Problem time of the start [yr].</summary>
    public double StartTime { get; init; }
}
