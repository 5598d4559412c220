namespace DeckLife.Propagation;

/// <summary>Time from initiation to a crack through the cover, by rust that fills the porous zone and then presses.</summary>
/// <remarks>
/// Equation: Wcrit (1 − α ρrust/ρsteel) = ρrust π D [C ft/Eef ((a² + b²)/(b² − a²) + ν) + d0], a = (D + 2 d0)/2, b = C + a;
/// t = Wcrit²/(2 kp), kp = 0.098/α π D i with i in mA/ft². With i in µA/cm² the factor is 0.0913: Faraday's law, 91.3 g of iron a m² and year for
/// 1 µA/cm² (55.845 g/mol over two electrons), of which the paper's is a rounding (0.098/1.0764 = 0.0910).
/// Source: Liu and Weyers, ACI Materials Journal 95 (1998) 675-681 (form and constants from memory).
/// Valid for: uniform corrosion of one bar at a steady rate. The paper's four
/// observed times (1.84, 3.54, 0.72 and 2.38 yr, from memory) are 0.8 to 1.4 times those computed, over the range of α.
/// </remarks>
public static class LiuWeyers1998
{
    private const double PerMicroampere = 0.0913;

    /// <summary>Rust at which the cover cracks Wcrit [mg/mm of bar].</summary>
    /// <param name="coverMm">Cover C [mm], positive.</param>
    /// <param name="barDiameterMm">Bar diameter D [mm], positive.</param>
    /// <param name="concrete">The concrete.</param>
    public static double CriticalRust(
        double coverMm,
        double barDiameterMm,
        CrackingConcrete concrete
    )
    {
        ArgumentNullException.ThrowIfNull(concrete);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(coverMm);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(barDiameterMm);
        var gap = concrete.PorousZoneUm / 1000;
        var a = (barDiameterMm + 2 * gap) / 2;
        var b = coverMm + a;
        var widening =
            coverMm
            * concrete.TensileStrengthMpa
            / concrete.EffectiveModulusMpa
            * ((a * a + b * b) / (b * b - a * a) + concrete.PoissonsRatio);
        var rust = concrete.RustDensityKgPerM3 / 1000;
        var steel = concrete.SteelDensityKgPerM3 / 1000;
        return rust
            * Math.PI
            * barDiameterMm
            * (widening + gap)
            / (1 - concrete.SteelInRust * rust / steel);
    }

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
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(corrosionRate);
        var critical = CriticalRust(coverMm, barDiameterMm, concrete);
        var growth =
            PerMicroampere / concrete.SteelInRust * Math.PI * barDiameterMm * corrosionRate;
        return critical * critical / (2 * growth);
    }
}
