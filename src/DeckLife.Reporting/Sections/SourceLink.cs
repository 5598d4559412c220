using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>Gives a part of a report its link to what its numbers rest on.</summary>
internal static class SourceLink
{
    /// <summary>The part with the link on its chart, or on the numbers of its table; links that it has already stay.</summary>
    /// <param name="part">The part; absent stays absent.</param>
    /// <param name="anchor">Where the page says what the numbers rest on.</param>
    public static IReportPart? To(IReportPart? part, string anchor) =>
        part switch
        {
            ReportChart chart => chart with { Basis = chart.Basis ?? anchor },
            ReportTable table => table with
            {
                LinksNumbers = true,
                Columns =
                [
                    .. table.Columns.Select(c =>
                        c.IsNumeric && c.Basis is null ? c with { Basis = anchor } : c
                    ),
                ],
            },
            _ => part,
        };
}
