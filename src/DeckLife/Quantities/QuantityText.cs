using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace DeckLife.Quantities;

/// <summary>Reads quantities as the trade writes them: a number and its unit, never a bare number.</summary>
public static partial class QuantityText
{
    private delegate T Maker<out T>(double canonical);

    /// <summary>Reads a depth.</summary>
    public static bool TryParseDepth(
        string text,
        out Depth value,
        [NotNullWhen(false)] out string? problem
    )
    {
        ArgumentNullException.ThrowIfNull(text);
        if (FeetAndInches().Match(NumberText.Clean(text)) is { Success: true } match)
        {
            value = default;
            if (
                !NumberText.TryParse(
                    match.Groups["ft"].Value,
                    DecimalMark.Unknown,
                    false,
                    out var feet,
                    out var why
                )
                || !NumberText.TryParse(
                    match.Groups["in"].Value,
                    DecimalMark.Unknown,
                    true,
                    out var inches,
                    out why
                )
            )
            {
                problem = NotA(text, "depth", Dimension.Length, why);
                return false;
            }

            value = Depth.FromMillimetres(
                (feet * UnitFactors.MillimetresPerFoot) + (inches * UnitFactors.MillimetresPerInch)
            );
            problem = null;
            return true;
        }

        return TryParse(
            text,
            "depth",
            Dimension.Length,
            Depth.FromMillimetres,
            out value,
            out problem
        );
    }

    /// <summary>Reads an age or a span of time.</summary>
    public static bool TryParseAge(
        string text,
        out Age value,
        [NotNullWhen(false)] out string? problem
    ) => TryParse(text, "age", Dimension.Time, Age.FromYears, out value, out problem);

    /// <summary>Reads a diffusion coefficient.</summary>
    public static bool TryParseDiffusionCoefficient(
        string text,
        out DiffusionCoefficient value,
        [NotNullWhen(false)] out string? problem
    ) =>
        TryParse(
            text,
            "diffusion coefficient",
            Dimension.Diffusion,
            DiffusionCoefficient.FromSquareMillimetresPerYear,
            out value,
            out problem
        );

    /// <summary>Reads a chloride content by volume of concrete; a share of concrete or binder is refused, since it needs the mix.</summary>
    public static bool TryParseChlorideContent(
        string text,
        out ChlorideContent value,
        [NotNullWhen(false)] out string? problem
    )
    {
        value = default;
        return TryParseStatedChloride(
                text,
                ChlorideExtraction.NotStated,
                out var stated,
                out problem
            ) && stated.TryToContent(ConcreteMix.Unknown, out value, out problem);
    }

    /// <summary>Reads a chloride content on any basis.</summary>
    /// <param name="text">The text, for example <c>0.4 % of binder</c>.</param>
    /// <param name="extraction">How it was extracted.</param>
    /// <param name="value">The content as stated.</param>
    /// <param name="problem">What is wrong, the value, what is allowed.</param>
    public static bool TryParseStatedChloride(
        string text,
        ChlorideExtraction extraction,
        out StatedChloride value,
        [NotNullWhen(false)] out string? problem
    )
    {
        value = default;
        if (
            !TrySplit(
                text,
                "chloride content",
                Dimension.Chloride,
                out var number,
                out var unit,
                out problem
            )
        )
        {
            return false;
        }

        try
        {
            value = new StatedChloride(number, unit, extraction);
            return true;
        }
        catch (ArgumentOutOfRangeException e)
        {
            problem = Message(e);
            return false;
        }
    }

    /// <summary>Reads a temperature.</summary>
    public static bool TryParseTemperature(
        string text,
        out Temperature value,
        [NotNullWhen(false)] out string? problem
    )
    {
        value = default;
        if (
            !TrySplit(
                text,
                "temperature",
                Dimension.Temperature,
                out var number,
                out var unit,
                out problem
            )
        )
        {
            return false;
        }

        try
        {
            value = unit.Name switch
            {
                "K" => Temperature.FromKelvin(number),
                "°F" => Temperature.FromFahrenheit(number),
                _ => Temperature.FromCelsius(number),
            };
            return true;
        }
        catch (ArgumentOutOfRangeException e)
        {
            problem = Message(e);
            return false;
        }
    }

    /// <summary>Reads an area [m²].</summary>
    public static bool TryParseArea(
        string text,
        out double squareMetres,
        [NotNullWhen(false)] out string? problem
    ) =>
        TryParse(
            text,
            "area",
            Dimension.Area,
            NotNegative("area", "m2"),
            out squareMetres,
            out problem
        );

    /// <summary>Reads a mass by volume, such as a unit weight or a binder content [kg/m³].</summary>
    public static bool TryParseDensity(
        string text,
        out double kilogramsPerCubicMetre,
        [NotNullWhen(false)] out string? problem
    ) =>
        TryParse(
            text,
            "density",
            Dimension.Density,
            NotNegative("density", "kg/m3"),
            out kilogramsPerCubicMetre,
            out problem
        );

    /// <summary>Reads a potential against the copper/copper-sulfate electrode, or against another whose own potential is stated.</summary>
    /// <param name="text">The text, for example <c>-350 mV CSE</c>.</param>
    /// <param name="stated">The electrode with its potential against CSE, where the survey states one.</param>
    /// <param name="value">The potential against CSE.</param>
    /// <param name="problem">What is wrong, the value, what is allowed.</param>
    public static bool TryParsePotential(
        string text,
        ReferenceElectrode? stated,
        out Potential value,
        [NotNullWhen(false)] out string? problem
    )
    {
        ArgumentNullException.ThrowIfNull(text);
        value = default;
        var (numberPart, unitPart) = Split(text);
        if (!PotentialUnit.TryFind(unitPart, stated, out var unit, out var why))
        {
            problem = $"'{text.Trim()}' is not a potential: {why}.";
            return false;
        }

        if (!NumberText.TryParse(numberPart, DecimalMark.Unknown, false, out var number, out why))
        {
            problem = $"'{text.Trim()}' is not a potential: {why}.";
            return false;
        }

        value = unit.ToPotential(number);
        problem = null;
        return true;
    }

    /// <summary>Reads a quantity of any dimension but temperature and potential, in its canonical unit.</summary>
    /// <param name="text">The text: a number and its unit.</param>
    /// <param name="dimension">What it must measure.</param>
    /// <param name="canonical">The value in the canonical unit; may be negative.</param>
    /// <param name="problem">What is wrong, the value, what is allowed.</param>
    public static bool TryParseMeasure(
        string text,
        Dimension dimension,
        out double canonical,
        [NotNullWhen(false)] out string? problem
    ) =>
        TryParse(
            text,
            dimension.ToString().ToLowerInvariant(),
            dimension,
            v => v,
            out canonical,
            out problem
        );

    /// <summary>Writes a canonical value in a unit, so that reading it back gives the same value to rounding.</summary>
    /// <param name="canonical">The value in the canonical unit of the unit's dimension.</param>
    /// <param name="unit">The unit to write.</param>
    public static string Write(double canonical, Unit unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{canonical / unit.Factor:R} {unit.Name}"
        );
    }

    private static bool TryParse<T>(
        string text,
        string what,
        Dimension dimension,
        Maker<T> make,
        out T value,
        [NotNullWhen(false)] out string? problem
    )
        where T : struct
    {
        value = default;
        if (!TrySplit(text, what, dimension, out var number, out var unit, out problem))
        {
            return false;
        }

        try
        {
            value = make(number * unit.Factor);
            return true;
        }
        catch (ArgumentOutOfRangeException e)
        {
            problem = $"'{text.Trim()}': {Message(e)}";
            return false;
        }
    }

    private static bool TrySplit(
        string text,
        string what,
        Dimension dimension,
        out double number,
        [NotNullWhen(true)] out Unit? unit,
        [NotNullWhen(false)] out string? problem
    )
    {
        ArgumentNullException.ThrowIfNull(text);
        var (numberPart, unitPart) = Split(text);
        number = 0;
        if (!Units.TryFind(dimension, unitPart, out unit, out var why))
        {
            problem = NoUnit(text, what, why);
            return false;
        }

        var fraction = unit.Name is "in" or "ft";
        if (!NumberText.TryParse(numberPart, DecimalMark.Unknown, fraction, out number, out why))
        {
            problem = NotA(text, what, dimension, why);
            return false;
        }

        problem = null;
        return true;
    }

    // The number is the longest start that consists of digits, marks, fractions and a power of ten.
    internal static (string Number, string Unit) Split(string text)
    {
        var clean = PowerOfTen().Replace(Superscripts(NumberText.Clean(text)), "e$1");
        var end = 0;
        while (end < clean.Length)
        {
            var c = clean[end];
            var power =
                c is 'e' or 'E'
                && end > 0
                && char.IsAsciiDigit(clean[end - 1])
                && end + 1 < clean.Length
                && (
                    char.IsAsciiDigit(clean[end + 1])
                    || (
                        clean[end + 1] is '-' or '+'
                        && end + 2 < clean.Length
                        && char.IsAsciiDigit(clean[end + 2])
                    )
                );
            if (
                !power
                && !char.IsAsciiDigit(c)
                && "+-.,/ \u00A0¼½¾⅛⅜⅝⅞".IndexOf(c, StringComparison.Ordinal) < 0
            )
            {
                break;
            }

            end++;
        }

        return (clean[..end].TrimEnd(' ', '\u00A0', '-', '/'), clean[end..]);
    }

    private static string Superscripts(string text)
    {
        if (text.IndexOf('⁻', StringComparison.Ordinal) < 0)
        {
            return text;
        }

        const string raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";
        var builder = new StringBuilder(text.Length);
        foreach (var c in text)
        {
            var digit = raised.IndexOf(c, StringComparison.Ordinal);
            builder.Append(
                digit >= 0 ? (char)('0' + digit)
                : c == '⁻' ? '-'
                : c
            );
        }

        return builder.ToString();
    }

    private static string NoUnit(string text, string what, string why) =>
        $"'{text.Trim()}' is not {Article(what)} {what}: {why}.";

    private static string Article(string what) =>
        "aeiou".Contains(what[0], StringComparison.Ordinal) ? "an" : "a";

    private static string NotA(string text, string what, Dimension dimension, string why) =>
        $"'{text.Trim()}' is not {Article(what)} {what}: {why}. Write a number and its unit, one of {Units.Allowed(dimension)}.";

    private static Maker<double> NotNegative(string what, string unit) =>
        v =>
            double.IsFinite(v) && v >= 0
                ? v
                : throw new ArgumentOutOfRangeException(
                    what,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{what} {v:G6} {unit} is not allowed: it must be finite and not negative."
                    )
                );

    // The exception's own text without the parameter name that the runtime adds.
    internal static string Message(ArgumentOutOfRangeException e) =>
        e.Message.Split(" (Parameter", StringSplitOptions.None)[0];

    [GeneratedRegex(
        @"[ \u00A0]*[x×*·][ \u00A0]*10[ \u00A0]*\^?[ \u00A0]*([-+]?\d{1,3})(?=[ \u00A0]|$|[a-zA-Z])"
    )]
    private static partial Regex PowerOfTen();

    [GeneratedRegex(
        @"^(?<ft>\d+)[ \u00A0]*(?:'|′|ft\.?|feet|foot)[- \u00A0]*(?<in>\d[\d./ \u00A0-]*|[¼½¾⅛⅜⅝⅞]|\d+[¼½¾⅛⅜⅝⅞])[ \u00A0]*(?:""|″|''|in\.?|inch|inches)$"
    )]
    private static partial Regex FeetAndInches();
}
