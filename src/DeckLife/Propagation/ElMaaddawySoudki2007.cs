namespace DeckLife.Propagation;

/// <summary>Time from initiation to a crack through the cover, by a thick-walled cylinder under rust pressure.</summary>
/// <remarks>
/// Equation: t [d] = 7117.5 (D + 2 d0)(1 + ν + ψ)/(i Eef) [2 C fct/D + 2 d0 Eef/((1 + ν + ψ)(D + 2 d0))],
/// ψ = (D + 2 d0)²/(2 C (C + D + 2 d0)), i in µA/cm².
/// Source: El Maaddawy and Soudki, Cement and Concrete Composites 29 (2007) 168-175 (memory).
/// Valid for: a steady rate; gives times much shorter than those of <see cref="LiuWeyers1998"/>.
/// </remarks>
public static class ElMaaddawySoudki2007
{
    private const double DaysPerYear = 365.25;

    /// <summary>Time to the crack [yr].</summary>
    /// <param name="coverMm">Cover [mm], positive.</param>
    /// <param name="barDiameterMm">Bar diameter [mm], positive.</param>
    /// <param name="corrosionRate">Corrosion rate [µA/cm²], positive.</param>
    /// <param name="concrete">The concrete.</param>
    public static double YearsToCracking(
        double coverMm,
        double barDiameterMm,
        double corrosionRate,
        CrackingConcrete concrete
    )
    {
        ArgumentNullException.ThrowIfNull(concrete);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(coverMm);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(barDiameterMm);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(corrosionRate);
        var gap = concrete.PorousZoneUm / 1000;
        var inner = barDiameterMm + 2 * gap;
        var psi = inner * inner / (2 * coverMm * (coverMm + inner));
        var stiffness = 1 + concrete.PoissonsRatio + psi;
        var modulus = concrete.EffectiveModulusMpa;
        return 7117.5
            * inner
            * stiffness
            / (corrosionRate * modulus)
            * (
                2 * coverMm * concrete.TensileStrengthMpa / barDiameterMm
                + 2 * gap * modulus / (stiffness * inner)
            )
            / DaysPerYear;
    }
}
