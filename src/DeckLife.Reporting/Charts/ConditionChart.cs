using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>Condition of the deck against calendar year, for each strategy with its band.</summary>
public static class ConditionChart
{
    /// <summary>Damaged area of all strategies in one chart, with the limit that ends the service life.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportChart Damaged(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return Draw(
            projection,
            "Damaged area by year",
            "Line: median; shaded: 5th to 95th percentile of what is not known about the deck. A fall is a repair or an overlay.",
            "damaged and not repaired",
            p => p.Damaged,
            true
        );
    }

    /// <summary>Damaged or patched area of all strategies: what has gone, repaired or not, since the last full-width overlay.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportChart DamagedOrPatched(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return Draw(
            projection,
            "Damaged or patched area by year",
            "Patches count here until a full-width overlay replaces them.",
            "damaged, or patched since the last full-width overlay",
            p => p.DamagedOrPatched,
            true
        );
    }

    /// <summary>Area with corrosion initiated, for all strategies.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportChart Initiated(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return Draw(
            projection,
            "Area with corrosion initiated by year",
            "Initiation is not yet damage: the propagation period lies between.",
            "with corrosion initiated",
            p => p.Initiated,
            false
        );
    }

    private static ReportChart Draw(
        DeckProjection projection,
        string title,
        string note,
        string what,
        Func<CurvePoint, PercentileBand> band,
        bool withLimit
    )
    {
        var start = projection.Deck.SurveyYear;
        var figure = new Figure();
        foreach (var (strategy, i) in projection.Strategies.Select((s, i) => (s, i)))
        {
            BandTraces.Add(
                figure,
                [.. strategy.Curve.Select(p => start + p.TimeYr)],
                [.. strategy.Curve.Select(band)],
                HtmlEscape.ChartLabel(strategy.Strategy.Name),
                ChartPalette.Line(i),
                ChartPalette.Dash(i),
                "0.14",
                "%{x:.0f}: %{y:.1f} % (median)"
            );
        }

        var limit = 100 * projection.Deck.DamageLimit;
        if (withLimit)
        {
            figure.Layout(
                (
                    "shapes",
                    new object[]
                    {
                        new
                        {
                            type = "line",
                            xref = "paper",
                            x0 = 0,
                            x1 = 1,
                            y0 = limit,
                            y1 = limit,
                            line = new
                            {
                                color = ChartPalette.Limit,
                                width = 1.5,
                                dash = "dot",
                            },
                        },
                    }
                ),
                (
                    "annotations",
                    new object[]
                    {
                        new
                        {
                            xref = "paper",
                            x = 0,
                            xanchor = "left",
                            y = limit,
                            yanchor = "bottom",
                            showarrow = false,
                            text = "limit " + NumberNotation.Trimmed(limit) + " %",
                        },
                    }
                )
            );
        }

        var json = figure
            .Layout(
                ("xaxis", Figure.Axis("Calendar year", ("tickformat", "d"))),
                ("yaxis", Figure.Axis("Share of the deck area [%]", ("rangemode", "tozero"))),
                ("hovermode", "x")
            )
            .ToJson();
        return new ReportChart(
            title,
            note,
            $"Share of the deck area {what} against calendar year from {start}, one line a strategy with its 5 to 95 percent band. "
                + string.Join(" ", projection.Strategies.Select(s => Ends(s, start, band))),
            440,
            json,
            json,
            Numbers(projection, $"Share of the deck area {what}", start, band)
        );
    }

    private static string Ends(
        StrategyProjection strategy,
        int start,
        Func<CurvePoint, PercentileBand> band
    )
    {
        if (strategy.Curve.IsDefaultOrEmpty)
        {
            return $"{strategy.Strategy.Name}: no curve.";
        }

        var last = strategy.Curve[^1];
        return $"{strategy.Strategy.Name}: median {NumberNotation.Percent(band(strategy.Curve[0]).P50)} at the start, {NumberNotation.Percent(band(last).P50)} in {NumberNotation.Fixed(start + last.TimeYr, 0)}.";
    }

    private static ReportTable Numbers(
        DeckProjection projection,
        string caption,
        int start,
        Func<CurvePoint, PercentileBand> band
    ) =>
        new(
            caption + ", by strategy and year",
            [
                new("Strategy"),
                new("Year", true),
                new("5th percentile", true, IsShare: true),
                new("Median", true, IsShare: true),
                new("95th percentile", true, IsShare: true),
            ],
            [
                .. projection.Strategies.SelectMany(s =>
                    Thinned(s.Curve)
                        .Select(p =>
                            ImmutableArray.Create(
                                ReportCell.Words(s.Strategy.Name),
                                ReportCell.Whole((long)Math.Round(start + p.TimeYr)),
                                ReportCell.Percent(band(p).P05),
                                ReportCell.Percent(band(p).P50),
                                ReportCell.Percent(band(p).P95)
                            )
                        )
                ),
            ]
        );

    // Every fifth year, the first and the last: enough to read the curve from.
    private static IEnumerable<CurvePoint> Thinned(ImmutableArray<CurvePoint> curve)
    {
        var next = double.NegativeInfinity;
        for (var i = 0; i < curve.Length; i++)
        {
            if (curve[i].TimeYr >= next - 1e-9 || i == curve.Length - 1)
            {
                yield return curve[i];
                next = (Math.Floor((curve[i].TimeYr + 1e-9) / 5) + 1) * 5;
            }
        }
    }
}
