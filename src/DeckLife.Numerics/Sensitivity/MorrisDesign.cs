namespace DeckLife.Numerics.Sensitivity;

/// <summary>How elementary effects are laid out.</summary>
public enum MorrisDesign
{
    /// <summary>Paths through a grid, each step changing one input (Morris 1991).</summary>
    Trajectories,

    /// <summary>Stars around low-discrepancy points, each ray changing one input (Campolongo, Saltelli &amp; Cariboni 2011).</summary>
    Radial,
}
