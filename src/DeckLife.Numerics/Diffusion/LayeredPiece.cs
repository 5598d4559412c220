namespace DeckLife.Numerics.Diffusion;

/// <summary>What is left of a layer in a period.</summary>
/// <param name="Layer">Index of the layer.</param>
/// <param name="Top">Depth in the layer at which what is left begins [mm].</param>
internal readonly record struct LayeredPiece(int Layer, double Top);
