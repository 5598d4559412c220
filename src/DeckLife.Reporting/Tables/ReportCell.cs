using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Tables;

/// <summary>A table's cell: for a page, for a terminal, and as a number where it is one.</summary>
/// <param name="Html">For a page, in both unit systems where it has units.</param>
/// <param name="Text">For a terminal, in canonical units.</param>
/// <param name="Value">The number in the canonical unit; absent for words.</param>
public readonly record struct ReportCell(HtmlFragment Html, string Text, double? Value)
{
    /// <summary>Id of the place on a report's page that says what the number rests on; absent: the column's.</summary>
    public string? Basis { get; init; }

    /// <summary>Words.</summary>
    /// <param name="text">Any text.</param>
    public static ReportCell Words(string? text) =>
        new(HtmlFragment.FromText(text), text ?? "", null);

    /// <summary>A page fragment with its text form.</summary>
    /// <param name="html">For a page.</param>
    /// <param name="text">For a terminal.</param>
    public static ReportCell Fragment(HtmlFragment html, string text) => new(html, text, null);

    /// <summary>A number without a unit.</summary>
    /// <param name="value">The number; absent or not finite: said so.</param>
    /// <param name="digits">Significant digits.</param>
    public static ReportCell Number(double? value, int digits = 3)
    {
        if (value is not { } number || !double.IsFinite(number))
        {
            return Missing();
        }

        var text = NumberNotation.Significant(number, digits);
        return new(HtmlFragment.FromText(text), text, number);
    }

    /// <summary>A count or a calendar year.</summary>
    /// <param name="value">The number.</param>
    public static ReportCell Whole(long value)
    {
        var text = value.ToString(System.Globalization.CultureInfo.InvariantCulture);
        return new(HtmlFragment.FromText(text), text, value);
    }

    /// <summary>An amount of money in whole units, thousands parted; its currency stands in the column's head.</summary>
    /// <param name="value">The amount.</param>
    public static ReportCell Amount(long value)
    {
        var text = value.ToString("N0", System.Globalization.CultureInfo.InvariantCulture);
        return new(HtmlFragment.FromText(text), text, value);
    }

    /// <summary>A quantity; its unit stands in the column's head.</summary>
    /// <param name="scale">The quantity.</param>
    /// <param name="canonical">The value in the canonical unit; absent or not finite: said so.</param>
    /// <param name="digits">Significant digits.</param>
    public static ReportCell Quantity(UnitScale scale, double? canonical, int digits = 3)
    {
        ArgumentNullException.ThrowIfNull(scale);
        if (canonical is not { } value || !double.IsFinite(value))
        {
            return Missing();
        }

        var si = scale.Number(value, UnitSystem.Si, digits);
        return new(
            QuantityHtml.Both(si, scale.Number(value, UnitSystem.UsCustomary, digits)),
            si,
            value
        );
    }

    /// <summary>A fraction, shown as a percentage.</summary>
    /// <param name="fraction">The fraction, 0 to 1; absent: said so.</param>
    public static ReportCell Percent(double? fraction)
    {
        if (fraction is not { } value || !double.IsFinite(value))
        {
            return Missing();
        }

        var text = NumberNotation.Percent(value);
        return new(HtmlFragment.FromText(text), text, value);
    }

    /// <summary>A number that does not exist.</summary>
    /// <param name="why">The reason, in a word or two.</param>
    public static ReportCell Missing(string why = "–") =>
        new(HtmlFragment.Of($"<span class=\"dl-missing\">{why}</span>"), why, null);
}
