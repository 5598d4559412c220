using System.Text.Json;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Page;

namespace DeckLife.Reporting.Tables;

/// <summary>A table that a reader can sort by any column, by mouse or keyboard, and save as CSV; with scripts off it stands as it is.</summary>
/// <param name="table">The table.</param>
/// <param name="title">What it is about; the name of its CSV file is made of this.</param>
public sealed class SortableTable(ReportTable table, string title) : IReportPart
{
    private const string Style =
        ".dl-sort-head{font:inherit;color:inherit;background:none;border:0;padding:0;cursor:pointer;text-align:inherit}"
        + ".dl-sort-head:focus-visible{outline:2px solid var(--accent);outline-offset:2px}"
        + "th[aria-sort=ascending] .dl-sort-head::after{content:\" ▲\"}th[aria-sort=descending] .dl-sort-head::after{content:\" ▼\"}";

    /// <inheritdoc/>
    public HtmlFragment ToHtml() =>
        HtmlFragment.Of(
            $"""
            <div><style>{new HtmlFragment(Style)}</style>{table.ToHtml("dl-sortable")}
            <script type="application/json" class="dl-sort">{new HtmlFragment(
                HtmlEscape.JsonInScript(Values())
            )}</script>
            {CsvLink.To(table, title)}</div>
            <script>{new HtmlFragment(PageResources.Own("sort.js"))}</script>

            """
        );

    /// <inheritdoc/>
    public string ToText() => table.ToText();

    private string Values() =>
        JsonSerializer.Serialize(
            table.Rows.Select(r =>
                r.Select(
                        (c, i) =>
                            table.Columns[i].IsNumeric
                                ? (object?)(c.Value is { } v && double.IsFinite(v) ? v : null)
                                : c.Text
                    )
                    .ToArray()
            )
        );
}
