using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.RegularExpressions;

namespace DeckLife.Quantities;

/// <summary>Reads numbers as people and spreadsheets write them, and refuses what has two readings.</summary>
/// <remarks>
/// A comma followed by other than three digits, or after a leading 0, can only be a decimal comma; with three digits it is read
/// by what the surroundings show, else refused. Fractions (<c>1 1/4</c>, <c>1-1/4</c>, <c>1¼</c>) have the denominators of a tape measure.
/// </remarks>
public static partial class NumberText
{
    /// <summary>Reads a number.</summary>
    /// <param name="text">The text, without a unit.</param>
    /// <param name="mark">What the surroundings show of the decimal mark.</param>
    /// <param name="allowFraction">Whether <c>1 1/4</c> is a number here (lengths in inches or feet).</param>
    /// <param name="value">The number.</param>
    /// <param name="problem">What is wrong and what is allowed, without the value itself.</param>
    public static bool TryParse(
        string text,
        DecimalMark mark,
        bool allowFraction,
        out double value,
        [NotNullWhen(false)] out string? problem
    )
    {
        ArgumentNullException.ThrowIfNull(text);
        problem = null;
        if (IsPlain(text) && mark is DecimalMark.Unknown or DecimalMark.Point)
        {
            // The everyday case, without regular expressions: digits and one decimal point.
            value = double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
            return true;
        }

        var clean = Clean(text);
        value = 0;
        if (clean.Length == 0)
        {
            problem = "it is empty: a number is needed";
            return false;
        }

        if (clean.Length > 64)
        {
            problem = "it is far too long for a number";
            return false;
        }

        if (Plain().Match(clean) is { Success: true } plain)
        {
            return TryPlain(clean, plain, mark, out value, out problem);
        }

        if (Grouped().IsMatch(clean))
        {
            return TryGrouped(clean, out value, out problem);
        }

        if (Fraction().Match(clean) is { Success: true } fraction)
        {
            return TryFraction(fraction, allowFraction, out value, out problem);
        }

        problem = Reason(clean);
        return false;
    }

    /// <summary>What one number shows about the decimal mark of its file: <see cref="DecimalMark.Unknown"/> when it shows nothing.</summary>
    /// <param name="text">The text of a cell.</param>
    public static DecimalMark Evidence(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!text.AsSpan().ContainsAny(',', '.'))
        {
            return DecimalMark.Unknown;
        }

        if (IsPlain(text))
        {
            // The everyday case without regular expressions.
            var digits = text.AsSpan().TrimStart('-');
            var point = digits.IndexOf('.');
            return digits.Length - point - 1 == 3 && point is >= 1 and <= 3 && digits[0] != '0'
                ? DecimalMark.Unknown
                : DecimalMark.Point;
        }

        var clean = Clean(text);
        if (Plain().Match(clean) is { Success: true } plain)
        {
            var m = plain.Groups["mark"].Value;
            return m.Length == 0 || LooksGrouped(plain) ? DecimalMark.Unknown
                : m == "," ? DecimalMark.Comma
                : DecimalMark.Point;
        }

        if (Grouped().Match(clean) is { Success: true } grouped)
        {
            var group = grouped.Groups["group"].Value;
            return group == "," ? DecimalMark.Point
                : group == "." ? DecimalMark.Comma
                : grouped.Groups["mark"].Value == "," ? DecimalMark.Comma
                : grouped.Groups["mark"].Value == "." ? DecimalMark.Point
                : DecimalMark.Unknown;
        }

        return DecimalMark.Unknown;
    }

    /// <summary>Replaces the many spaces and minus signs of Unicode by the plain ones, and trims.</summary>
    /// <param name="text">The text.</param>
    public static string Clean(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var clean = text;
        if (!Ascii(clean))
        {
            clean = string.Create(
                clean.Length,
                clean,
                static (span, source) =>
                {
                    for (var i = 0; i < span.Length; i++)
                    {
                        span[i] = source[i] switch
                        {
                            '\u2212' or '\u2013' or '\u2010' or '\u2011' or '\uFE63' or '\uFF0D' =>
                                '-',
                            '\u2044' or '\u2215' => '/',
                            '\u200B' or '\uFEFF' => ' ',
                            // Narrow and no-break spaces are kept apart: they group thousands.
                            '\u00A0' or '\u202F' or '\u2009' or '\u2007' => '\u00A0',
                            var c when char.IsWhiteSpace(c) => ' ',
                            var c => c,
                        };
                    }
                }
            );
        }

        return clean.Trim(' ', '\u00A0', '\t', '\r', '\n');
    }

    private static bool Ascii(string text)
    {
        foreach (var c in text)
        {
            if (c > 127)
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsPlain(string text)
    {
        if (text.Length is 0 or > 24)
        {
            return false;
        }

        var digits = 0;
        var points = 0;
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (char.IsAsciiDigit(c))
            {
                digits++;
            }
            else if (c == '.')
            {
                points++;
            }
            else if (c != '-' || i > 0)
            {
                return false;
            }
        }

        return digits > 0 && points <= 1;
    }

    private static bool LooksGrouped(Match plain)
    {
        var whole = plain.Groups["whole"].Value;
        var part = plain.Groups["part"].Value;
        return part.Length == 3
            && whole.Length is >= 1 and <= 3
            && whole[0] != '0'
            && plain.Groups["power"].Length == 0;
    }

    private static bool TryPlain(
        string clean,
        Match plain,
        DecimalMark mark,
        out double value,
        [NotNullWhen(false)] out string? problem
    )
    {
        var sign = plain.Groups["mark"].Value;
        if (LooksGrouped(plain))
        {
            var other = sign == "," ? DecimalMark.Point : DecimalMark.Comma;
            if (mark == other && sign == ",")
            {
                return Finite(
                    clean.Replace(",", "", StringComparison.Ordinal),
                    out value,
                    out problem
                );
            }

            var certain =
                sign == ","
                    ? mark == DecimalMark.Comma
                    : mark is DecimalMark.Unknown or DecimalMark.Point;
            if (!certain)
            {
                value = 0;
                problem =
                    sign == ","
                        ? "its comma may be a decimal comma or group thousands, and nothing beside it tells which: "
                            + "write a decimal point and no group marks"
                        : "its point may be a decimal point or group thousands, since other numbers here have a decimal "
                            + "comma: write all numbers with a decimal point and no group marks";
                return false;
            }
        }

        return Finite(clean.Replace(',', '.'), out value, out problem);
    }

    private static bool TryGrouped(
        string clean,
        out double value,
        [NotNullWhen(false)] out string? problem
    )
    {
        var match = Grouped().Match(clean);
        var whole = match
            .Groups["whole"]
            .Value.Replace(match.Groups["group"].Value, "", StringComparison.Ordinal);
        var part = match.Groups["part"].Value;
        return Finite(
            match.Groups["sign"].Value + whole + (part.Length > 0 ? "." + part : ""),
            out value,
            out problem
        );
    }

    private static bool TryFraction(
        Match match,
        bool allowed,
        out double value,
        [NotNullWhen(false)] out string? problem
    )
    {
        value = 0;
        if (!allowed)
        {
            problem =
                "a fraction is read only for lengths in inches or feet: write a decimal number";
            return false;
        }

        double over;
        double under;
        if (match.Groups["vulgar"].Value is { Length: 1 } vulgar)
        {
            (over, under) = Vulgar(vulgar[0]);
        }
        else
        {
            over = double.Parse(match.Groups["over"].Value, CultureInfo.InvariantCulture);
            under = double.Parse(match.Groups["under"].Value, CultureInfo.InvariantCulture);
        }

        if (under is not (2 or 4 or 8 or 16 or 32 or 64) || over >= under || over == 0)
        {
            problem = "its fraction is not one of a tape measure (halves to 64ths, below 1)";
            return false;
        }

        var whole = match.Groups["whole"].Value;
        value =
            (whole.Length == 0 ? 0 : double.Parse(whole, CultureInfo.InvariantCulture))
            + (over / under);
        value = match.Groups["sign"].Value == "-" ? -value : value;
        problem = null;
        return true;
    }

    private static (double Over, double Under) Vulgar(char c) =>
        c switch
        {
            '¼' => (1, 4),
            '½' => (1, 2),
            '¾' => (3, 4),
            '⅛' => (1, 8),
            '⅜' => (3, 8),
            '⅝' => (5, 8),
            _ => (7, 8),
        };

    private static bool Finite(
        string text,
        out double value,
        [NotNullWhen(false)] out string? problem
    )
    {
        if (
            double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value)
            && double.IsFinite(value)
        )
        {
            problem = null;
            return true;
        }

        value = 0;
        problem = "it is too large for a number";
        return false;
    }

    private static string Reason(string clean)
    {
        if (DateLike().IsMatch(clean))
        {
            return "it is a date: a spreadsheet turns entries such as 1/2 or 2-1 into dates; type the number again in a "
                + "cell formatted as text or number";
        }

        return clean.StartsWith('#')
            ? "it is a spreadsheet's error value: mend the formula or give the number"
            : "it is not a number: write digits with a decimal point";
    }

    [GeneratedRegex(
        @"^[+-]?(?:(?<whole>\d+)(?:(?<mark>[.,])(?<part>\d*))?|(?<whole>)(?<mark>[.,])(?<part>\d+))(?<power>[eE][+-]?\d{1,3})?$",
        RegexOptions.CultureInvariant
    )]
    private static partial Regex Plain();

    [GeneratedRegex(
        @"^(?<sign>[+-]?)(?<whole>\d{1,3}(?:(?<group>,)\d{3})(?:,\d{3})*(?=\.|$)|\d{1,3}(?:(?<group>\.)\d{3})(?:\.\d{3})*(?=,|$)|\d{1,3}(?:(?<group>['\u00A0\u2019])\d{3})(?:['\u00A0\u2019]\d{3})*(?=[.,]|$))(?:(?<mark>[.,])(?<part>\d+))?$",
        RegexOptions.CultureInvariant
    )]
    private static partial Regex Grouped();

    [GeneratedRegex(
        @"^(?<sign>-?)(?:(?<whole>\d{1,3})[ \u00A0]*[- \u00A0][ \u00A0]*)?(?<over>\d{1,2})[ \u00A0]*/[ \u00A0]*(?<under>\d{1,2})$|^(?<sign>-?)(?<whole>\d{0,3})[ \u00A0]?-?(?<vulgar>[¼½¾⅛⅜⅝⅞])$",
        RegexOptions.CultureInvariant
    )]
    private static partial Regex Fraction();

    [GeneratedRegex(
        @"^(\d{1,2}[-/. ](jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*([-/. ]\d{2,4})?|(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[-/. ]\d{1,4}|\d{4}-\d{1,2}-\d{1,2}([ T].*)?|\d{1,2}[-/.]\d{1,2}[-/.]\d{2,4}|\d{1,2}-\d{1,2})$",
        RegexOptions.CultureInvariant | RegexOptions.IgnoreCase
    )]
    private static partial Regex DateLike();
}
