using DeckLife.Numerics.Sampling;

namespace DeckLife.Population;

/// <summary>What the model's own form gets wrong, as one shift of the normal score of every share in a draw.</summary>
/// <remarks>
/// Equation: F' = Φ(Φ⁻¹(F) + δ). Keeps 0 and 1, order, and rise with time. Without it a survey would press the model's faults into
/// the threshold.
/// </remarks>
public static class ModelDiscrepancy
{
    /// <summary>Shifts a share.</summary>
    /// <param name="share">The model's share, 0 to 1.</param>
    /// <param name="shift">δ.</param>
    public static double Shift(double share, double shift) =>
        shift == 0 || share <= 0 || share >= 1
            ? share
            : NormalQuantile.Probability(NormalQuantile.At(share) + shift);
}
