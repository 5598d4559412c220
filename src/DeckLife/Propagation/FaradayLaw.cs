namespace DeckLife.Propagation;

/// <summary>Loss of steel from a corrosion current.</summary>
/// <remarks>
/// Equation: loss = i M/(z F ρ) with iron's M 55.845 g/mol, z 2, F 96 485.33 C/mol. Source: Faraday's law; the literature's usual constant is
/// 11.6 µm/yr for 1 µA/cm² (Andrade and Alonso; memory).
/// </remarks>
public static class FaradayLaw
{
    private const double MolarMass = 55.845;
    private const double Electrons = 2;
    private const double Faraday = 96_485.33212;
    private const double SecondsPerYear = 31_557_600;

    /// <summary>Loss of radius [µm/yr] for 1 µA/cm².</summary>
    /// <param name="steelDensityKgPerM3">Density of the steel [kg/m³], positive.</param>
    public static double MicrometresPerYear(double steelDensityKgPerM3 = 7850)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(steelDensityKgPerM3);
        // 1 µA/cm² = 0.01 A/m²; g/m² over kg/m³ is mm; a thousand µm a mm.
        return 0.01
            * MolarMass
            / (Electrons * Faraday)
            * SecondsPerYear
            / steelDensityKgPerM3
            * 1000;
    }

    /// <summary>Time until a loss of radius [yr].</summary>
    /// <param name="lossUm">Loss of radius [µm], positive.</param>
    /// <param name="corrosionRate">Corrosion rate [µA/cm²], positive.</param>
    public static double YearsToLoss(double lossUm, double corrosionRate)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(lossUm);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(corrosionRate);
        return lossUm / (MicrometresPerYear() * corrosionRate);
    }
}
