using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Tables;

/// <summary>A table's column: its head, its unit, and whether it holds numbers.</summary>
/// <param name="Head">The head, without the unit.</param>
/// <param name="IsNumeric">Whether its cells are set to the right.</param>
/// <param name="Scale">The quantity, for a unit in the head; absent: none, or a fixed one.</param>
/// <param name="FixedUnit">A unit that is the same in both systems.</param>
/// <param name="IsShare">Whether its cells are shares: percentages to read, fractions in a file.</param>
public sealed record ReportColumn(
    string Head,
    bool IsNumeric = false,
    UnitScale? Scale = null,
    string? FixedUnit = null,
    bool IsShare = false
)
{
    /// <summary>Id of the place on a report's page that says what the column's numbers rest on.</summary>
    public string? Basis { get; init; }

    /// <summary>The head for a page.</summary>
    public HtmlFragment ToHtml() =>
        Scale is not null
            ? HtmlFragment.Of($"{Head} <span class=\"dl-unit\">{QuantityHtml.Unit(Scale)}</span>")
        : FixedUnit is not null
            ? HtmlFragment.Of($"{Head} <span class=\"dl-unit\">{FixedUnit}</span>")
        : HtmlFragment.FromText(Head);

    /// <summary>The head for a file, with the unit of the numbers below it.</summary>
    public string ToCsvHead() => IsShare ? $"{Head} [fraction]" : ToText();

    /// <summary>The head for a terminal, with the canonical unit.</summary>
    public string ToText() => (Scale?.SiUnit ?? FixedUnit) is { } unit ? $"{Head} [{unit}]" : Head;
}
