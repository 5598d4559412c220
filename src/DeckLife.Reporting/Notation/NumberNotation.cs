using System.Globalization;

namespace DeckLife.Reporting.Notation;

/// <summary>Numbers as text: significant digits, no exponent where people would not write one, never NaN or infinity.</summary>
public static class NumberNotation
{
    /// <summary>What stands where a number does not exist.</summary>
    public const string Missing = "not available";

    /// <summary>A number with so many significant digits.</summary>
    /// <param name="value">The number.</param>
    /// <param name="digits">Significant digits, 1 to 15.</param>
    public static string Significant(double value, int digits = 3)
    {
        if (!double.IsFinite(value))
        {
            return Missing;
        }

        if (value == 0)
        {
            return "0";
        }

        var magnitude = (int)Math.Floor(Math.Log10(Math.Abs(value)));
        if (magnitude < -4 || magnitude > 8)
        {
            return value.ToString(
                "0." + new string('#', digits - 1) + "e+0",
                CultureInfo.InvariantCulture
            );
        }

        var rounded = decimal.Parse(
            value.ToString(
                "E" + (digits - 1).ToString(CultureInfo.InvariantCulture),
                CultureInfo.InvariantCulture
            ),
            NumberStyles.Float,
            CultureInfo.InvariantCulture
        );
        magnitude =
            rounded == 0 ? 0 : (int)Math.Floor(Math.Log10((double)Math.Abs(rounded)) + 1e-12);
        var decimals = Math.Clamp(digits - 1 - magnitude, 0, 15);
        return rounded.ToString(
            (Math.Abs(rounded) >= 10_000 ? "N" : "F")
                + decimals.ToString(CultureInfo.InvariantCulture),
            CultureInfo.InvariantCulture
        );
    }

    /// <summary>A number with at most so many significant digits and no zeros at its end: for what people chose, not measured.</summary>
    /// <param name="value">The number.</param>
    /// <param name="digits">Significant digits, 1 to 15.</param>
    public static string Trimmed(double value, int digits = 3)
    {
        var text = Significant(value, digits);
        return
            text.Contains('.', StringComparison.Ordinal)
            && !text.Contains('e', StringComparison.Ordinal)
            ? text.TrimEnd('0').TrimEnd('.')
            : text;
    }

    /// <summary>A number with so many decimals.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Decimals, 0 to 15.</param>
    public static string Fixed(double value, int decimals) =>
        double.IsFinite(value)
            ? value.ToString(
                "F" + decimals.ToString(CultureInfo.InvariantCulture),
                CultureInfo.InvariantCulture
            )
            : Missing;

    /// <summary>A fraction as a percentage: whole numbers from 10 % on, else one decimal; "&lt; 0.1 %" below 0.05 %.</summary>
    /// <param name="fraction">The fraction, 0 to 1.</param>
    public static string Percent(double fraction) =>
        !double.IsFinite(fraction) ? Missing
        : fraction is > 0 and < 0.0005 ? "< 0.1 %"
        : Fixed(100 * fraction, Math.Abs(fraction) >= 0.0995 || fraction == 0 ? 0 : 1) + " %";

    /// <summary>An amount of money with its currency, rounded to three significant digits.</summary>
    /// <param name="amount">The amount.</param>
    /// <param name="currency">ISO 4217 code.</param>
    public static string Money(double amount, string currency)
    {
        if (!double.IsFinite(amount))
        {
            return Missing;
        }

        var (scaled, word) = Math.Abs(amount) switch
        {
            >= 999_500_000 => (amount / 1e9, " billion"),
            >= 999_500 => (amount / 1e6, " million"),
            _ => (amount, ""),
        };
        if (word.Length > 0)
        {
            return currency + " " + Significant(scaled) + word;
        }

        // Three significant digits, written out: 412,000 and not 412,345.
        var step = Math.Pow(
            10,
            Math.Max(0, Math.Floor(Math.Log10(Math.Max(1, Math.Abs(amount)))) - 2)
        );
        return currency
            + " "
            + (Math.Round(amount / step) * step).ToString("N0", CultureInfo.InvariantCulture);
    }
}
