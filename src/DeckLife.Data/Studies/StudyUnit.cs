using DeckLife.Quantities;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>Units of study files: how many canonical units one of them is.</summary>
internal static class StudyUnit
{
    /// <summary>The factor to the canonical unit; absent where the unit is not one of the quantity's.</summary>
    public static double? Factor(StudyVariableInfo variable, string unit) =>
        Allowed(variable).TryGetValue(unit, out var factor) ? factor : null;

    /// <summary>The units of a quantity.</summary>
    public static IReadOnlyDictionary<string, double> Allowed(StudyVariableInfo variable) =>
        variable.Unit switch
        {
            "mm" => Lengths,
            "kg/m3" => Contents,
            "mm2/yr" => Coefficients,
            _ => new Dictionary<string, double> { [variable.Unit] = 1 },
        };

    private static readonly Dictionary<string, double> Lengths = new(StringComparer.Ordinal)
    {
        ["mm"] = 1,
        ["cm"] = 10,
        ["in"] = UnitFactors.MillimetresPerInch,
    };

    private static readonly Dictionary<string, double> Contents = new(StringComparer.Ordinal)
    {
        ["kg/m3"] = 1,
        ["lb/yd3"] = UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard,
    };

    private static readonly Dictionary<string, double> Coefficients = new(StringComparer.Ordinal)
    {
        ["mm2/yr"] = 1,
        ["in2/yr"] = UnitFactors.SquareMillimetresPerSquareInch,
        ["m2/s"] = UnitFactors.SquareMillimetresPerYearPerSquareMetrePerSecond,
    };
}
