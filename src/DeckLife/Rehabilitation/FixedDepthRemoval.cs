using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>Removal of the whole surface to one depth (scarifying, milling, hydrodemolition).</summary>
/// <param name="Depth">Depth taken off.</param>
public sealed record FixedDepthRemoval(Depth Depth) : RemovalRule;
