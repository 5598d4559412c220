using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>The coefficient of a Portland-cement concrete from its mix proportions.</summary>
/// <remarks>
/// Equation: D = 0.15 D_w (1 + rc w/c)/(1 + rc w/c + (rc/ra) a/c) ((rc w/c - 0.85)/(1 + rc w/c))³, D_w = 1.6e-9 m²/s, the
/// diffusion of sodium chloride in water; rc and ra the specific gravities of cement and aggregate.
/// Source: Papadakis, Roumeliotis, Fardis and Vayenas 1996, as used by Vu and Stewart, Structural Safety 22 (2000) 313-333
/// (both from memory). Valid for: Portland cement without additions, w/c from 0.35 to 0.6, well cured and mature; it knows
/// neither age nor temperature. Checked by reference case transport/mix-relations.
/// </remarks>
public static class PapadakisEtAl1996
{
    private const double InWater = 1.6e-9;
    private const double Least = 0.35;
    private const double Most = 0.6;

    /// <summary>The diffusion coefficient.</summary>
    /// <param name="waterCementRatio">w/c by mass, from 0.35 to 0.6.</param>
    /// <param name="aggregateCementRatio">a/c by mass, at least 0.</param>
    /// <param name="cementGravity">rc, relative to water.</param>
    /// <param name="aggregateGravity">ra, relative to water.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range.</exception>
    public static DiffusionCoefficient Coefficient(
        double waterCementRatio,
        double aggregateCementRatio,
        double cementGravity = 3.16,
        double aggregateGravity = 2.6
    )
    {
        MixRange.Check(
            waterCementRatio,
            Least,
            Most,
            "A water-cement ratio for this relation lies between 0.35 and 0.6."
        );
        ArgumentOutOfRangeException.ThrowIfNegative(aggregateCementRatio);
        MixRange.Check(
            cementGravity,
            2.8,
            3.3,
            "The specific gravity of a Portland cement lies between 2.8 and 3.3."
        );
        MixRange.Check(
            aggregateGravity,
            2,
            3.5,
            "The specific gravity of an aggregate lies between 2 and 3.5."
        );
        var water = cementGravity * waterCementRatio;
        var pores = (water - 0.85) / (1 + water);
        var paste =
            (1 + water) / (1 + water + (cementGravity / aggregateGravity * aggregateCementRatio));
        return DiffusionCoefficient.FromSquareMetresPerSecond(
            0.15 * InWater * paste * pores * pores * pores
        );
    }
}
