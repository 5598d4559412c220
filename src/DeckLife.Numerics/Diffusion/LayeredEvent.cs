namespace DeckLife.Numerics.Diffusion;

/// <summary>Something done to a layered section at a moment.</summary>
/// <param name="Time">Problem time [yr].</param>
public sealed record LayeredEvent(double Time)
{
    /// <summary>Thickness taken off the top [mm].</summary>
    public double Removal { get; init; }

    /// <summary>Layer put on after the removal.</summary>
    public DiffusionLayer? Placed { get; init; }

    /// <summary>Condition at the surface from then on; absent: it goes on unchanged.</summary>
    public BoundaryCondition? Surface { get; init; }

    /// <summary>Whether the event changes nothing.</summary>
    public bool IsEmpty => Removal == 0 && Placed is null && Surface is null;
}
