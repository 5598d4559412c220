using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using DeckLife.Reporting.Html;

namespace DeckLife.Reporting.Tables;

/// <summary>A table: on a page, on a terminal, and as CSV.</summary>
/// <param name="Caption">What it shows.</param>
/// <param name="Columns">Its columns; the first names the row.</param>
/// <param name="Rows">Its rows, each with one cell a column.</param>
public sealed record ReportTable(
    string Caption,
    ImmutableArray<ReportColumn> Columns,
    ImmutableArray<ImmutableArray<ReportCell>> Rows
) : IReportPart
{
    // A printed table of so few rows is not broken over pages.
    private const int RowsOnOnePage = 12;

    /// <summary>Whether its numbers link to what they rest on: only where the page holds that list.</summary>
    public bool LinksNumbers { get; init; }

    /// <summary>Whether its rows become blocks on a phone, each cell with its column's head: for tables of words.</summary>
    public bool StacksOnPhones { get; init; }

    /// <inheritdoc/>
    public HtmlFragment ToHtml() => ToHtml(null);

    /// <summary>The table for a page.</summary>
    /// <param name="cssClass">An extra class, or nothing.</param>
    public HtmlFragment ToHtml(string? cssClass)
    {
        var html = new StringBuilder();
        html.Append(
            HtmlFragment.Of(
                $"<div class=\"{Classes(cssClass)}\" tabindex=\"0\" role=\"region\" aria-label=\"{Caption}\"><table{Role("table")}><caption>{Caption}</caption><thead{Role("rowgroup")}><tr{Role("row")}>"
            )
        );
        foreach (var column in Columns)
        {
            html.Append(
                HtmlFragment.Of(
                    $"<th scope=\"col\"{Role("columnheader")}{Numeric(column)}>{column.ToHtml()}</th>"
                )
            );
        }

        html.Append(HtmlFragment.Of($"</tr></thead><tbody{Role("rowgroup")}>\n"));
        foreach (var row in Rows)
        {
            html.Append(HtmlFragment.Of($"<tr{Role("row")}>"));
            for (var i = 0; i < row.Length; i++)
            {
                html.Append(
                    i == 0
                        ? HtmlFragment.Of(
                            $"<th scope=\"row\"{Role("rowheader")}{Numeric(Columns[i])}>{Linked(row[i], Columns[i])}</th>"
                        )
                        : HtmlFragment.Of(
                            $"<td{Role("cell")}{Class(row[i], Columns[i])}>{Labelled(row[i], Columns[i])}</td>"
                        )
                );
            }

            html.Append("</tr>\n");
        }

        return new(html.Append("</tbody></table></div>").ToString());
    }

    /// <inheritdoc/>
    public string ToText()
    {
        var grid = Rows.Select(r => r.Select(c => c.Text).ToArray())
            .Prepend([.. Columns.Select(c => c.ToText())])
            .ToList();
        var widths = Columns.Select((_, i) => grid.Max(r => r[i].Length)).ToArray();
        var text = new StringBuilder(Caption).Append('\n');
        foreach (var row in grid)
        {
            text.Append(
                    string.Join(
                            "  ",
                            row.Select(
                                (c, i) =>
                                    Columns[i].IsNumeric
                                        ? c.PadLeft(widths[i])
                                        : c.PadRight(widths[i])
                            )
                        )
                        .TrimEnd()
                )
                .Append('\n');
        }

        return text.ToString();
    }

    /// <summary>The table as CSV in canonical units, full precision, safe to open in a spreadsheet: no text in it can act as a formula.</summary>
    public string ToCsv()
    {
        var csv = new StringBuilder();
        csv.AppendJoin(',', Columns.Select(c => CsvText.Field(c.ToCsvHead()))).Append("\r\n");
        foreach (var row in Rows)
        {
            csv.AppendJoin(
                    ',',
                    row.Select(c =>
                        c.Value is { } number
                            ? number.ToString("R", CultureInfo.InvariantCulture)
                            : CsvText.Field(c.Text)
                    )
                )
                .Append("\r\n");
        }

        return csv.ToString();
    }

    /// <inheritdoc/>
    public bool Equals(ReportTable? other) =>
        other is not null
        && Caption == other.Caption
        && Columns.AsSpan().SequenceEqual(other.Columns.AsSpan())
        && Rows.Length == other.Rows.Length
        && Rows.Zip(other.Rows).All(p => p.First.AsSpan().SequenceEqual(p.Second.AsSpan()));

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Caption, Columns.Length, Rows.Length);

    private string Classes(string? extra) =>
        string.Join(
            ' ',
            new[]
            {
                "dl-scroll",
                extra,
                StacksOnPhones ? "dl-stack" : null,
                Rows.Length <= RowsOnOnePage ? "dl-short" : null,
            }.Where(c => !string.IsNullOrEmpty(c))
        );

    // A style that makes blocks of rows takes a table's meaning away; roles keep it.
    private HtmlFragment Role(string role) =>
        StacksOnPhones ? HtmlFragment.Of($" role=\"{role}\"") : HtmlFragment.Empty;

    private HtmlFragment Labelled(ReportCell cell, ReportColumn column) =>
        StacksOnPhones
            ? HtmlFragment.Of(
                $"<span class=\"dl-label\" aria-hidden=\"true\">{column.ToHtml()}</span><div class=\"dl-cell\">{Linked(cell, column)}</div>"
            )
            : Linked(cell, column);

    private HtmlFragment Linked(ReportCell cell, ReportColumn column) =>
        LinksNumbers
        && (cell.Basis ?? column.Basis) is { } basis
        && (cell.Value is not null || cell.Text.Any(char.IsAsciiDigit))
            ? HtmlFragment.Of($"<a class=\"dl-basis\" href=\"#{basis}\">{cell.Html}</a>")
            : cell.Html;

    // A block of a phone has no need of an empty line with a head.
    private HtmlFragment Class(ReportCell cell, ReportColumn column) =>
        StacksOnPhones && cell.Text.Length == 0 ? new(" class=\"dl-empty\"") : Numeric(column);

    private static HtmlFragment Numeric(ReportColumn column) =>
        column.IsNumeric ? new(" class=\"dl-num\"") : HtmlFragment.Empty;
}
