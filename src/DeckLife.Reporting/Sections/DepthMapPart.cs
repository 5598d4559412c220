using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>Removal depth against overlay thickness: the best case, one map a material, the deck's own strategies as points.</summary>
/// <param name="map">The map.</param>
/// <param name="isInReport">Whether it stands on a report, which lists what its numbers rest on: they link there.</param>
public sealed class DepthMapPart(DepthMap map, bool isInReport = false) : IReportPart
{
    /// <inheritdoc/>
    public HtmlFragment ToHtml() =>
        HtmlFragment.Join(
            new[] { DecisionWords.BestDepth(map), Breaches() }
                .Concat(
                    map.Plan.Materials.Select(
                        (_, m) =>
                            (
                                DepthMapChart.Draw(map, m) with
                                {
                                    Basis = isInReport ? SourceAnchor.DepthMap : null,
                                }
                            ).ToHtml()
                    )
                )
                .Append(
                    (
                        isInReport ? SourceLink.To(Points(), SourceAnchor.DepthMap)! : Points()
                    ).ToHtml()
                )
                .Append(
                    HtmlFragment.Of(
                        $"<ul class=\"dl-flags\">{HtmlFragment.Join(map.Notes.Select(n => HtmlFragment.Of($"<li>{n}</li>")))}</ul>"
                    )
                )
        );

    /// <inheritdoc/>
    public string ToText() =>
        DecisionWords.BestDepthText(map)
        + "\n"
        + string.Join(
            "\n",
            map.Plan.Materials.Select((_, m) => DepthMapChart.Draw(map, m).ToText())
        )
        + "\n"
        + Points().ToText()
        + string.Concat(map.Notes.Select(n => $"- {n}\n"));

    /// <summary>The deck's own strategies on the map.</summary>
    public ReportTable Points() =>
        new(
            "The deck's own strategies on the map",
            [new("Strategy"), .. DepthMapChart.Columns(map)],
            [.. map.Points.Select(p => DepthMapChart.Row(p).Insert(0, ReportCell.Words(p.Name)))]
        );

    private HtmlFragment Breaches()
    {
        var counts = map
            .Cells.SelectMany(c => c.Broken.Select(b => b.Limit))
            .GroupBy(l => l, StringComparer.Ordinal)
            .Select(g => $"{g.Key} by {NumberNotation.Fixed(g.Count(), 0)}")
            .ToArray();
        return counts.Length == 0
            ? HtmlFragment.Empty
            : HtmlFragment.Of(
                $"<p>Limits broken, of {map.Cells.Length} cases: {string.Join(", ", counts)}.</p>"
            );
    }
}
