using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>A material placed over the whole deck.</summary>
/// <param name="Material">Name of an <see cref="OverlayMaterial"/> of the deck.</param>
/// <param name="Thickness">Thickness above the removed surface.</param>
public sealed record OverlayPlacement(string Material, Depth Thickness);
