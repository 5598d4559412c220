using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>A protection put over the whole deck, on top of what else an intervention places.</summary>
/// <param name="Material">Name of a <see cref="SurfaceProtection"/> of the deck.</param>
/// <param name="Thickness">Its thickness, for grade and dead load; 0 for a sealer.</param>
public sealed record ProtectionPlacement(string Material, Depth Thickness = default);
