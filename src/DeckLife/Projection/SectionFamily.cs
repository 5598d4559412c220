namespace DeckLife.Projection;

/// <summary>What the sections of a batch have in common in every draw: whatever else differs is the depth looked at and two diffusion coefficients.</summary>
/// <remarks>Only a batch whose dates are the same in every draw, whose surface stays open to salt and whose underside is sealed, has one. Layers count from the start's, then one an event.</remarks>
/// <param name="Materials">Index of each layer's material; −1: concrete like the deck's own, or no layer.</param>
/// <param name="Factors">Factor on each layer's coefficient of the material.</param>
/// <param name="RenewedAt">The change at which concrete comes out to under the bars, so that depths follow the cover: 0 the start, then the events; −1 none.</param>
internal sealed record SectionFamily(int[] Materials, double[] Factors, int RenewedAt)
{
    /// <summary>The first layer of a material; −1: none is.</summary>
    public int FirstOfMaterial { get; } = Array.FindIndex(Materials, m => m >= 0);

    /// <summary>Index of the material of all layers that are not like the deck's own concrete; −1: none is.</summary>
    public int Material => FirstOfMaterial < 0 ? -1 : Materials[FirstOfMaterial];

    /// <summary>The material's coefficient in a section [mm²/yr]; 1 where there is no material.</summary>
    public double Coefficient(SectionBatch batch, int section) =>
        FirstOfMaterial switch
        {
            < 0 => 1,
            0 => batch.LayerDiffusion[section] / Factors[0],
            var layer => batch.Events[layer - 1].LayerDiffusion![section] / Factors[layer],
        };
}
