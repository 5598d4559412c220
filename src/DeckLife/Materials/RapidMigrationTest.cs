using System.Diagnostics.CodeAnalysis;
using DeckLife.Numerics.SpecialFunctions;
using DeckLife.Quantities;
using static System.FormattableString;

namespace DeckLife.Materials;

/// <summary>One specimen of a rapid migration test, and its non-steady-state migration coefficient.</summary>
/// <remarks>
/// Source: NT Build 492 (1999), Concrete, mortar and cement-based repair materials: chloride migration coefficient from
/// non-steady-state migration experiments (equations and constants from memory). Both forms add 273 to the temperature in °C.
/// The coefficient holds for the specimen's age, saturated, at room temperature; ageing and other temperatures are a model's matter.
/// </remarks>
public sealed record RapidMigrationTest
{
    private const double GasConstant = 8.314;
    private const double Faraday = 9.648e4;

    /// <summary>Voltage applied [V]; 2 V of it are lost at the electrodes.</summary>
    public required double AppliedVoltageV { get; init; }

    /// <summary>Mean of the initial and final temperature of the anolyte [°C].</summary>
    public required double TemperatureC { get; init; }

    /// <summary>Thickness of the specimen [mm].</summary>
    public required double ThicknessMm { get; init; }

    /// <summary>Mean depth of the colour change [mm].</summary>
    public required double PenetrationMm { get; init; }

    /// <summary>Duration [h].</summary>
    public required double DurationH { get; init; }

    /// <summary>Chloride of the catholyte [mol/L]; the method's own is about 2 (10 % NaCl). Used by the full form only.</summary>
    public double CatholyteMolPerL { get; init; } = 2;

    /// <summary>Chloride at which silver nitrate changes colour [mol/L]; the method's own is about 0.07 for Portland cement. Used by the full form only.</summary>
    public double ColourChangeMolPerL { get; init; } = 0.07;

    /// <summary>The coefficient by the full expression, with the term of the inverse error function.</summary>
    /// <param name="coefficient">The coefficient.</param>
    /// <param name="problem">Why the readings give none.</param>
    public bool TryFull(
        out DiffusionCoefficient coefficient,
        [NotNullWhen(false)] out string? problem
    )
    {
        coefficient = default;
        problem = Problem();
        if (problem is not null)
        {
            return false;
        }

        if (
            !(ColourChangeMolPerL > 0)
            || !(CatholyteMolPerL > 2 * ColourChangeMolPerL)
            || !double.IsFinite(CatholyteMolPerL)
        )
        {
            problem = Invariant(
                $"the catholyte ({CatholyteMolPerL} mol/L) must be more than twice the colour change's chloride ({ColourChangeMolPerL} mol/L), which must be above 0"
            );
            return false;
        }

        // RT/(zFE) is a length: the voltage over which ions drift against the one at which they diffuse.
        var length =
            GasConstant
            * (273 + TemperatureC)
            / Faraday
            * (ThicknessMm / 1000)
            / (AppliedVoltageV - 2);
        var alpha =
            2
            * Math.Sqrt(length)
            * ErrorFunction.InverseErfc(2 * ColourChangeMolPerL / CatholyteMolPerL);
        var depth = PenetrationMm / 1000;
        var drift = depth - (alpha * Math.Sqrt(depth));
        return TryMake(length * drift / (DurationH * 3600), out coefficient, out problem);
    }

    /// <summary>The coefficient by the simplified expression, whose constants hold for 2 and 0.07 mol/L.</summary>
    /// <param name="coefficient">The coefficient.</param>
    /// <param name="problem">Why the readings give none.</param>
    public bool TrySimplified(
        out DiffusionCoefficient coefficient,
        [NotNullWhen(false)] out string? problem
    )
    {
        coefficient = default;
        problem = Problem();
        if (problem is not null)
        {
            return false;
        }

        var perVolt = (273 + TemperatureC) * ThicknessMm / (AppliedVoltageV - 2);
        var drift = PenetrationMm - (0.0238 * Math.Sqrt(perVolt * PenetrationMm));
        return TryMake(0.0239e-12 * perVolt / DurationH * drift, out coefficient, out problem);
    }

    private static bool TryMake(
        double squareMetresPerSecond,
        out DiffusionCoefficient coefficient,
        [NotNullWhen(false)] out string? problem
    )
    {
        if (!(squareMetresPerSecond > 0))
        {
            coefficient = default;
            problem =
                "the penetration is less than what diffusion alone would give: test longer, at the voltage that the method prescribes";
            return false;
        }

        coefficient = DiffusionCoefficient.FromSquareMetresPerSecond(squareMetresPerSecond);
        problem = null;
        return true;
    }

    private string? Problem() =>
        !(AppliedVoltageV > 2 && AppliedVoltageV <= 100)
            ? Invariant($"the voltage is {AppliedVoltageV} V: it lies above 2 and up to 100")
        : !(TemperatureC is >= 0 and <= 60)
            ? Invariant($"the temperature is {TemperatureC} °C: it lies between 0 and 60")
        : !(ThicknessMm is >= 10 and <= 200)
            ? Invariant($"the thickness is {ThicknessMm} mm: it lies between 10 and 200")
        : !(DurationH is > 0 and <= 2000)
            ? Invariant($"the duration is {DurationH} h: it lies above 0 and up to 2000")
        : !(PenetrationMm > 0 && PenetrationMm < ThicknessMm)
            ? Invariant(
                $"the penetration is {PenetrationMm} mm: it lies above 0 and below the thickness of {ThicknessMm} mm; chloride that has come through gives no coefficient"
            )
        : null;
}
