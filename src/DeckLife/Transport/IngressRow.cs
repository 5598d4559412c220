using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>Chloride found at a time and a depth.</summary>
/// <param name="Time">Time from the start of the first exposure.</param>
/// <param name="Depth">Depth from the surface of that moment.</param>
/// <param name="Chloride">Total chloride.</param>
/// <param name="Layer">Name of the layer; an interface belongs to the layer above.</param>
public sealed record IngressRow(Age Time, Depth Depth, ChlorideContent Chloride, string Layer);
