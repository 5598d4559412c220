using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>Present value of each strategy with its band.</summary>
public static class CostChart
{
    /// <summary>Draws the chart; nothing where the deck has no prices.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportChart? Draw(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        var priced = projection
            .Strategies.Select((s, i) => (Strategy: s, Index: i))
            .Where(s => s.Strategy.Cost is not null)
            .ToList();
        if (priced.Count == 0)
        {
            return null;
        }

        var (currency, year) = (
            priced[0].Strategy.Cost!.Currency,
            priced[0].Strategy.Cost!.PriceYear
        );
        var figure = new Figure();
        foreach (var (s, i) in priced)
        {
            var name = HtmlEscape.WrappedChartLabel(s.Strategy.Name);
            var value = s.Cost!.PresentValue;
            var colour = ChartPalette.Line(i);
            figure.Add(
                "scatter",
                ("x", new[] { value.P05, value.P95 }),
                ("y", new[] { name, name }),
                ("mode", "lines"),
                ("line", new { color = ChartPalette.Translucent(colour, "0.45"), width = 9 }),
                ("hoverinfo", "skip")
            );
            figure.Add(
                "scatter",
                ("x", new[] { value.P50 }),
                ("y", new[] { name }),
                ("mode", "markers"),
                ("marker", new { color = colour, size = 13 }),
                ("hovertemplate", "median %{x:,.3s}<extra></extra>")
            );
            figure.Add(
                "scatter",
                ("x", new[] { s.Cost.MeanPresentValue }),
                ("y", new[] { name }),
                ("mode", "markers"),
                (
                    "marker",
                    new
                    {
                        color = "#FFFFFF",
                        size = 10,
                        symbol = "diamond",
                        line = new { color = "#1D2226", width = 1.5 },
                    }
                ),
                ("hovertemplate", "mean %{x:,.3s}<extra></extra>")
            );
        }

        var json = figure
            .Layout(
                (
                    "xaxis",
                    Figure.Axis(
                        $"Present value [{HtmlEscape.ChartLabel(currency)} of {year}]",
                        (
                            "range",
                            new[] { 0, 1.05 * priced.Max(p => p.Strategy.Cost!.PresentValue.P95) }
                        ),
                        ("tickformat", ",.2~s")
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
            "Present value, by strategy",
            $"Diamond: mean, by which strategies are ranked; dot: median; bar: 5th to 95th percentile. Over {NumberNotation.Trimmed(projection.Deck.Horizon.Years)} years at {NumberNotation.Percent(projection.Deck.DiscountRate)} a year, year 0 not discounted.",
            "Present value of each strategy. "
                + string.Join(
                    " ",
                    priced.Select(p =>
                        $"{p.Strategy.Strategy.Name}: {NumberNotation.Money(p.Strategy.Cost!.MeanPresentValue, currency)} in the mean, {NumberNotation.Money(p.Strategy.Cost.PresentValue.P50, currency)} in the median."
                    )
                ),
            110 + (44 * priced.Count),
            json,
            json,
            new ReportTable(
                $"Present value [{currency} of {year}]",
                [
                    new("Strategy"),
                    new("Mean", true),
                    new("5th percentile", true),
                    new("Median", true),
                    new("95th percentile", true),
                    new("Equivalent annual", true),
                ],
                [
                    .. priced.Select(p =>
                        ImmutableArray.Create(
                            ReportCell.Words(p.Strategy.Strategy.Name),
                            ReportCell.Number(p.Strategy.Cost!.MeanPresentValue),
                            ReportCell.Number(p.Strategy.Cost.PresentValue.P05),
                            ReportCell.Number(p.Strategy.Cost.PresentValue.P50),
                            ReportCell.Number(p.Strategy.Cost.PresentValue.P95),
                            ReportCell.Number(p.Strategy.Cost.EquivalentAnnual)
                        )
                    ),
                ]
            )
        );
    }
}
