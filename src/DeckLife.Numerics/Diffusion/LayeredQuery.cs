namespace DeckLife.Numerics.Diffusion;

/// <summary>A time and a depth at which the content is asked.</summary>
/// <param name="Time">Problem time [yr]; at the moment of an event the state before it is meant, at or before the start the state at the start.</param>
/// <param name="Depth">Depth from the surface of that moment [mm].</param>
public readonly record struct LayeredQuery(double Time, double Depth);
