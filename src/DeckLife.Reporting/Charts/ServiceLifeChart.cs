using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>Service life of each strategy: median and band, with what lies beyond the horizon marked so.</summary>
public static class ServiceLifeChart
{
    /// <summary>Draws the chart.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportChart Draw(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        var horizon = projection.Deck.Horizon.Years;
        var figure = new Figure();
        foreach (var (s, i) in projection.Strategies.Select((s, i) => (s, i)))
        {
            var life = s.ServiceLife;
            var name = HtmlEscape.WrappedChartLabel(s.Strategy.Name);
            var colour = ChartPalette.Line(i);
            var low = life.P05Yr ?? horizon;
            var high = life.P95Yr ?? horizon;
            figure.Add(
                "scatter",
                ("x", new[] { low, high }),
                ("y", new[] { name, name }),
                ("mode", "lines"),
                ("line", new { color = ChartPalette.Translucent(colour, "0.45"), width = 9 }),
                ("hoverinfo", "skip")
            );
            figure.Add(
                "scatter",
                ("x", new[] { life.P50Yr ?? horizon }),
                ("y", new[] { name }),
                ("mode", "markers"),
                (
                    "marker",
                    new
                    {
                        color = colour,
                        size = 13,
                        symbol = life.P50Yr is null ? "triangle-right-open" : "circle",
                    }
                ),
                (
                    "hovertemplate",
                    (life.P50Yr is null ? "median beyond " : "median ")
                        + "%{x:.1f} yr<extra></extra>"
                )
            );
            if (life.P95Yr is null)
            {
                figure.Add(
                    "scatter",
                    ("x", new[] { horizon }),
                    ("y", new[] { name }),
                    ("mode", "markers"),
                    (
                        "marker",
                        new
                        {
                            color = colour,
                            size = 11,
                            symbol = "triangle-right",
                        }
                    ),
                    ("hovertemplate", "95th percentile beyond the horizon<extra></extra>")
                );
            }
        }

        var criterion = Criterion(projection);
        var json = figure
            .Layout(
                (
                    "xaxis",
                    Figure.Axis(
                        "Years from the survey",
                        ("range", new[] { 0, horizon * 1.04 }),
                        ("zeroline", false)
                    )
                ),
                (
                    "yaxis",
                    Figure.Axis("", ("autorange", "reversed"), ("type", "category"), ("dtick", 1))
                ),
                ("showlegend", false),
                (
                    "margin",
                    new
                    {
                        l = 16,
                        r = 16,
                        t = 8,
                        b = 48,
                    }
                )
            )
            .ToJson();
        return new ReportChart(
            "Years until the limit, by strategy",
            $"End criterion: {criterion}. Dot: median; bar: 5th to 95th percentile; a triangle at the right end lies beyond the horizon of {NumberNotation.Trimmed(horizon)} years.",
            "Years from the survey until the end criterion, one bar a strategy. "
                + string.Join(
                    " ",
                    projection.Strategies.Select(s =>
                        $"{s.Strategy.Name}: {LifeText.Sentence(s.ServiceLife, horizon)}"
                    )
                ),
            110 + (44 * projection.Strategies.Length),
            json,
            json,
            Numbers(projection)
        );
    }

    private static string Criterion(DeckProjection projection) =>
        string.Join(
            "; ",
            projection
                .Strategies.Select(s => s.ServiceLife.Criterion)
                .Distinct(StringComparer.Ordinal)
        );

    private static ReportTable Numbers(DeckProjection projection) =>
        new(
            $"Years from the survey until the limit ({Criterion(projection)})",
            [
                new("Strategy"),
                new("5th percentile", true, FixedUnit: "yr"),
                new("Median", true, FixedUnit: "yr"),
                new("95th percentile", true, FixedUnit: "yr"),
                new("Monte Carlo error of the median", true, FixedUnit: "yr"),
                new("Limit not met within the horizon", true, IsShare: true),
                new("Old deck alone: median", true, FixedUnit: "yr"),
                new("Overlay's own end: median", true, FixedUnit: "yr"),
            ],
            [
                .. projection.Strategies.Select(s =>
                    ImmutableArray.Create(
                        ReportCell.Words(s.Strategy.Name),
                        LifeText.Cell(s.ServiceLife.P05Yr),
                        LifeText.Cell(s.ServiceLife.P50Yr),
                        LifeText.Cell(s.ServiceLife.P95Yr),
                        ReportCell.Number(s.ServiceLife.ErrorOfP50Yr, 2),
                        ReportCell.Percent(s.ServiceLife.NotReachedProbability),
                        s.DeckBeneath is { } beneath
                            ? LifeText.Cell(beneath.P50Yr)
                            : ReportCell.Missing(),
                        s.OverlayEnd is { } end
                            ? LifeText.Cell(end.P50Yr)
                            : ReportCell.Missing("no life stated")
                    )
                ),
            ]
        );
}
