using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>A time and a depth at which chloride is asked.</summary>
/// <param name="Time">Time from the start of the first exposure; at the moment of a change the state before it is meant.</param>
/// <param name="Depth">Depth from the surface of that moment.</param>
public readonly record struct IngressQuery(Age Time, Depth Depth);
