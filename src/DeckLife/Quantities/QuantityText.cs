using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace DeckLife.Quantities;

/// <summary>Reads quantities as the trade writes them: a number and its unit, never a bare number.</summary>
public static class QuantityText
{
    private static readonly (string Unit, Func<double, Depth> Make)[] Depths =
    [
        ("mm", Depth.FromMillimetres),
        ("cm", v => Depth.FromMillimetres(v * 10)),
        ("m", v => Depth.FromMillimetres(v * 1000)),
        ("in", Depth.FromInches),
        ("\"", Depth.FromInches),
        ("ft", v => Depth.FromMillimetres(v * UnitFactors.MillimetresPerFoot)),
    ];

    private static readonly (string Unit, Func<double, Age> Make)[] Ages =
    [
        ("yr", Age.FromYears),
        ("d", Age.FromDays),
    ];

    private static readonly (
        string Unit,
        Func<double, DiffusionCoefficient> Make
    )[] DiffusionCoefficients =
    [
        ("mm2/yr", DiffusionCoefficient.FromSquareMillimetresPerYear),
        ("m2/s", DiffusionCoefficient.FromSquareMetresPerSecond),
        ("in2/yr", DiffusionCoefficient.FromSquareInchesPerYear),
        ("cm2/s", v => DiffusionCoefficient.FromSquareMetresPerSecond(v * 1e-4)),
    ];

    private static readonly (string Unit, Func<double, ChlorideContent> Make)[] ChlorideContents =
    [
        ("kg/m3", ChlorideContent.FromKilogramsPerCubicMetre),
        ("lb/yd3", ChlorideContent.FromPoundsPerCubicYard),
        ("lb/cy", ChlorideContent.FromPoundsPerCubicYard),
        ("pcy", ChlorideContent.FromPoundsPerCubicYard),
    ];

    private static readonly (string Unit, Func<double, Temperature> Make)[] Temperatures =
    [
        ("°C", Temperature.FromCelsius),
        ("K", Temperature.FromKelvin),
        ("°F", Temperature.FromFahrenheit),
    ];

    /// <summary>Reads a depth.</summary>
    public static bool TryParseDepth(
        string text,
        out Depth value,
        [NotNullWhen(false)] out string? problem
    ) => TryParse(text, "depth", Depths, out value, out problem);

    /// <summary>Reads an age or a span of time.</summary>
    public static bool TryParseAge(
        string text,
        out Age value,
        [NotNullWhen(false)] out string? problem
    ) => TryParse(text, "age", Ages, out value, out problem);

    /// <summary>Reads a diffusion coefficient.</summary>
    public static bool TryParseDiffusionCoefficient(
        string text,
        out DiffusionCoefficient value,
        [NotNullWhen(false)] out string? problem
    ) => TryParse(text, "diffusion coefficient", DiffusionCoefficients, out value, out problem);

    /// <summary>Reads a chloride content by volume of concrete.</summary>
    public static bool TryParseChlorideContent(
        string text,
        out ChlorideContent value,
        [NotNullWhen(false)] out string? problem
    ) => TryParse(text, "chloride content", ChlorideContents, out value, out problem);

    /// <summary>Reads a temperature.</summary>
    public static bool TryParseTemperature(
        string text,
        out Temperature value,
        [NotNullWhen(false)] out string? problem
    ) => TryParse(text, "temperature", Temperatures, out value, out problem);

    private static bool TryParse<T>(
        string text,
        string what,
        (string Unit, Func<double, T> Make)[] units,
        out T value,
        [NotNullWhen(false)] out string? problem
    )
        where T : struct
    {
        value = default;
        var trimmed = text.Trim();
        foreach (var (unit, make) in units.OrderByDescending(u => u.Unit.Length))
        {
            if (!trimmed.EndsWith(unit, StringComparison.Ordinal))
            {
                continue;
            }

            var number = trimmed[..^unit.Length].TrimEnd();
            if (
                !double.TryParse(
                    number,
                    NumberStyles.Float,
                    CultureInfo.InvariantCulture,
                    out var parsed
                )
            )
            {
                break;
            }

            try
            {
                value = make(parsed);
                problem = null;
                return true;
            }
            catch (ArgumentOutOfRangeException e)
            {
                problem = e.Message;
                return false;
            }
        }

        problem =
            $"'{text}' is not a {what}: write a number with a decimal point and one of the units "
            + string.Join(", ", units.Select(u => u.Unit))
            + ".";
        return false;
    }
}
