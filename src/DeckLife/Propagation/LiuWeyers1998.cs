namespace DeckLife.Propagation;

/// <summary>Time from initiation to a crack through the cover, by rust that fills the porous zone and then presses.</summary>
/// <remarks>
/// Equation: Wcrit (1 − α ρrust/ρsteel) = ρrust π D [C ft/Eef ((a² + b²)/(b² − a²) + ν) + d0], a = (D + 2 d0)/2, b = C + a;
/// t = Wcrit²/(2 kp), kp = 0.098/α π D i with i in mA/ft² (0.0913 with i in µA/cm²).
/// Source: Liu and Weyers, ACI Materials Journal 95 (1998) 675-681 (form and constants from memory).
/// Valid for: uniform corrosion of one bar at a steady rate. The paper's observed times are up to 1.4 times longer.
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
