using DeckLife.Quantities;

namespace DeckLife.Reporting.Notation;

/// <summary>How a quantity is written in both systems: the factor from the canonical unit, the unit's sign, the digits.</summary>
/// <param name="Name">The quantity.</param>
/// <param name="SiUnit">The canonical unit as written.</param>
/// <param name="UsUnit">The US customary unit as written.</param>
/// <param name="UsFactor">Canonical value times this gives the US customary value.</param>
public sealed record UnitScale(string Name, string SiUnit, string UsUnit, double UsFactor)
{
    /// <summary>Whether zeros at a number's end are left away: depths that people choose, not contents that a laboratory measures.</summary>
    public bool IsTrimmed { get; init; }

    /// <summary>Depths, covers, thicknesses.</summary>
    public static UnitScale Depth { get; } =
        new("depth", "mm", "in", 1 / UnitFactors.MillimetresPerInch) { IsTrimmed = true };

    /// <summary>Chloride contents by volume of concrete.</summary>
    public static UnitScale Chloride { get; } =
        new(
            "chloride content",
            "kg/m³",
            "lb/yd³",
            1 / UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard
        );

    /// <summary>Unit weights of concrete, and what it holds of a constituent.</summary>
    public static UnitScale Density { get; } =
        new(
            "density",
            "kg/m³",
            "lb/yd³",
            1 / UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard
        )
        {
            IsTrimmed = true,
        };

    /// <summary>Diffusion coefficients.</summary>
    public static UnitScale Diffusion { get; } =
        new(
            "diffusion coefficient",
            "mm²/yr",
            "in²/yr",
            1 / UnitFactors.SquareMillimetresPerSquareInch
        );

    /// <summary>Areas of the deck.</summary>
    public static UnitScale Area { get; } =
        new(
            "area",
            "m²",
            "ft²",
            1e6 / (UnitFactors.MillimetresPerFoot * UnitFactors.MillimetresPerFoot)
        );

    /// <summary>Positions on the deck.</summary>
    public static UnitScale Position { get; } =
        new("position", "m", "ft", 1e3 / UnitFactors.MillimetresPerFoot);

    /// <summary>The unit in a system.</summary>
    /// <param name="system">The system.</param>
    public string Unit(UnitSystem system) => system == UnitSystem.Si ? SiUnit : UsUnit;

    /// <summary>A canonical value in a system's unit.</summary>
    /// <param name="canonical">The value in the canonical unit.</param>
    /// <param name="system">The system.</param>
    public double To(double canonical, UnitSystem system) =>
        system == UnitSystem.Si ? canonical : canonical * UsFactor;

    /// <summary>A canonical value as text in a system's unit, without the unit's sign.</summary>
    /// <param name="canonical">The value in the canonical unit.</param>
    /// <param name="system">The system.</param>
    /// <param name="digits">Significant digits.</param>
    public string Number(double canonical, UnitSystem system, int digits = 3) =>
        IsTrimmed
            ? NumberNotation.Trimmed(To(canonical, system), digits)
            : NumberNotation.Significant(To(canonical, system), digits);
}
