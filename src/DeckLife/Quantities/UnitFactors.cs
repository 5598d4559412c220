namespace DeckLife.Quantities;

/// <summary>Exact conversion factors to the library's canonical units: mm, yr, mm²/yr, kg/m³, °C.</summary>
/// <remarks>
/// Source: definitions. The international inch is 25.4 mm, the pound 0.45359237 kg, the cubic yard
/// 0.9144³ m³, the Julian year 365.25 d = 31 557 600 s.
/// </remarks>
public static class UnitFactors
{
    /// <summary>Newtons a pound-force, exactly: 0.45359237 kg times 9.80665 m/s².</summary>
    public const double NewtonsPerPoundForce = 0.45359237 * 9.80665;

    /// <summary>kN/m² in one pound-force on a square foot.</summary>
    public const double KilonewtonsPerSquareMetrePerPoundPerSquareFoot =
        NewtonsPerPoundForce / 1000 / (0.3048 * 0.3048);

    /// <summary>Millimetres in one inch (exact).</summary>
    public const double MillimetresPerInch = 25.4;

    /// <summary>Millimetres in one foot (exact).</summary>
    public const double MillimetresPerFoot = 304.8;

    /// <summary>Kilometres in one mile of 5280 ft (exact).</summary>
    public const double KilometresPerMile = 1.609344;

    /// <summary>Kilograms in one avoirdupois pound (exact).</summary>
    public const double KilogramsPerPound = 0.45359237;

    /// <summary>Cubic metres in one cubic yard (exact): 0.9144³.</summary>
    public const double CubicMetresPerCubicYard = 0.764554857984;

    /// <summary>kg/m³ in one lb/yd³: 0.593276421….</summary>
    public const double KilogramsPerCubicMetrePerPoundPerCubicYard =
        KilogramsPerPound / CubicMetresPerCubicYard;

    /// <summary>Days in one Julian year (exact).</summary>
    public const double DaysPerYear = 365.25;

    /// <summary>Seconds in one Julian year (exact).</summary>
    public const double SecondsPerYear = 31_557_600.0;

    /// <summary>mm²/yr in one in²/yr (exact).</summary>
    public const double SquareMillimetresPerSquareInch = 645.16;

    /// <summary>mm²/yr in one m²/s: 1e6 mm²/m² times the seconds in a year.</summary>
    public const double SquareMillimetresPerYearPerSquareMetrePerSecond = 1e6 * SecondsPerYear;
}
