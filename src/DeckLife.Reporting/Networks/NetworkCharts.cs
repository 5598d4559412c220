using System.Collections.Immutable;
using DeckLife.Network.Condition;
using DeckLife.Network.Results;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Networks;

/// <summary>Charts of a network: its condition, its money, what money is worth, where its decks lie.</summary>
public static class NetworkCharts
{
    /// <summary>Damaged share of the network against year under each program, with bands.</summary>
    /// <param name="result">The results; at least one deck was projected.</param>
    public static ReportChart Condition(NetworkResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var figure = new Figure();
        foreach (var (plan, i) in result.Plans.Select((p, i) => (p, i)))
        {
            BandTraces.Add(
                figure,
                [.. plan.Condition.Select(y => (double)y.Year)],
                [.. plan.Condition.Select(y => y.Damaged.Together)],
                plan.Name,
                ChartPalette.Line(i),
                ChartPalette.Dash(i),
                "0.14",
                "%{x:.0f}: %{y:.1f} % (median)"
            );
        }

        var json = figure
            .Layout(
                ("xaxis", Figure.Axis("Calendar year", ("tickformat", "d"))),
                ("yaxis", Figure.Axis("Share of the network's area [%]", ("rangemode", "tozero"))),
                ("hovermode", "x")
            )
            .ToJson();
        return new ReportChart(
            "Damaged area of the network",
            "Line: median; band: 5th to 95th percentile when all decks err together. Each year shows the state before its work.",
            "Damaged share of the network's area against calendar year, one line a program. "
                + string.Join(
                    " ",
                    result.Plans.Select(p =>
                        $"{p.Name}: {NumberNotation.Percent(p.Condition[0].Damaged.Together.P50)} in {p.Condition[0].Year}, {NumberNotation.Percent(p.Condition[^1].Damaged.Together.P50)} in {p.Condition[^1].Year}."
                    )
                ),
            440,
            json,
            json,
            ConditionNumbers(result)
        );
    }

    /// <summary>Budget and money spent in each year of the program.</summary>
    /// <param name="result">The results.</param>
    public static ReportChart Money(NetworkResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var years = result
            .Network.Budgets.Select((_, y) => (double)(result.Network.FirstYear + y))
            .ToArray();
        var figure = new Figure();
        foreach (var (plan, i) in new[] { (result.WorstFirst, 1), (result.Best, 2) })
        {
            figure.Add(
                "bar",
                ("x", years),
                ("y", plan.SpentByYear.Select(s => (double)s).ToArray()),
                ("name", plan.Name),
                ("marker", new { color = ChartPalette.Line(i) }),
                ("hovertemplate", "%{x:.0f}: %{y:,.0f}")
            );
        }

        figure.Add(
            "scatter",
            ("x", years),
            ("y", result.Network.Budgets.Select(b => (double)b).ToArray()),
            ("mode", "lines+markers"),
            ("name", "budget"),
            (
                "line",
                new
                {
                    color = ChartPalette.Limit,
                    width = 1.5,
                    dash = "dot",
                }
            ),
            ("hovertemplate", "%{x:.0f}: %{y:,.0f}")
        );
        var json = figure
            .Layout(
                ("xaxis", Figure.Axis("Calendar year", ("tickformat", "d"), ("dtick", 1))),
                (
                    "yaxis",
                    Figure.Axis(
                        $"Expected cost [{HtmlEscape.ChartLabel(result.Prices)}]",
                        ("rangemode", "tozero")
                    )
                ),
                ("barmode", "group")
            )
            .ToJson();
        return new ReportChart(
            "Money by year",
            "Bars: expected cost of the year's work; dotted: the budget, which no year exceeds.",
            $"Expected cost of each year of the program beside its budget. Over all years: worst first {result.WorstFirst.SpentByYear.Sum()}, best program {result.Best.SpentByYear.Sum()}, budget {result.Network.Budgets.Sum()}.",
            360,
            json,
            json,
            new ReportTable(
                $"Budget and expected cost [{result.Prices}], decks closed",
                [
                    new("Year", true),
                    new("Budget", true),
                    new("Worst first", true),
                    new("Decks closed", true),
                    new("Best program", true),
                    new("Decks closed", true),
                ],
                [
                    .. result.Network.Budgets.Select(
                        (b, y) =>
                            ImmutableArray.Create(
                                ReportCell.Whole(result.Network.FirstYear + y),
                                ReportCell.Whole(b),
                                ReportCell.Whole(result.WorstFirst.SpentByYear[y]),
                                ReportCell.Whole(result.WorstFirst.ClosuresByYear[y]),
                                ReportCell.Whole(result.Best.SpentByYear[y]),
                                ReportCell.Whole(result.Best.ClosuresByYear[y])
                            )
                    ),
                ]
            )
        );
    }

    /// <summary>What the best program is worth with other budgets, and the most that any program could be.</summary>
    /// <param name="result">The results.</param>
    public static ReportChart BudgetValue(NetworkResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var whole = result.BudgetValues.First(v => v.Factor == 1).ValueM2Yr;
        string Unit(UnitSystem units) => UnitScale.Area.Unit(units) + " yr";
        string Drawn(UnitSystem units) => BudgetFigure(result, units, Unit(units));
        string Words(UnitSystem units) =>
            string.Join(
                " ",
                result.BudgetValues.Select(v =>
                    $"With {NumberNotation.Percent(v.Factor)} of the budget {NumberNotation.Significant(UnitScale.Area.To(v.ValueM2Yr, units))} {Unit(units)} avoided."
                )
            );
        ReportCell Area(double m2Yr, UnitSystem units) =>
            ReportCell.Number(UnitScale.Area.To(m2Yr, units), 4);
        ReportTable Numbers(UnitSystem units) =>
            new(
                "Value of the best program by budget",
                [
                    new("Budget", true, FixedUnit: result.Prices),
                    new("Share of the budget", true, IsShare: true),
                    new("Avoided", true, FixedUnit: Unit(units)),
                    new("Against the whole budget", true, FixedUnit: Unit(units)),
                    new("At most", true, FixedUnit: Unit(units)),
                    new("Sureness"),
                ],
                [
                    .. result.BudgetValues.Select(v =>
                        ImmutableArray.Create(
                            ReportCell.Amount(v.Budget),
                            ReportCell.Percent(v.Factor),
                            Area(v.ValueM2Yr, units),
                            Area(v.ValueM2Yr - whole, units),
                            Area(v.BoundM2Yr, units),
                            ReportCell.Words(NetworkNotes.Sureness(v.Status, v.Gap))
                        )
                    ),
                ]
            );
        return new ReportChart(
            "What money is worth",
            "Damaged area avoided, times the decks' weights, by the best program with less and with more money.",
            Words(UnitSystem.Si),
            340,
            Drawn(UnitSystem.Si),
            Drawn(UnitSystem.UsCustomary),
            Numbers(UnitSystem.Si)
        )
        {
            AlternativeTextUs = Words(UnitSystem.UsCustomary),
            NumbersUs = Numbers(UnitSystem.UsCustomary),
        };
    }

    private static string BudgetFigure(NetworkResult result, UnitSystem units, string unit)
    {
        var budgets = result.BudgetValues.Select(v => (double)v.Budget).ToArray();
        double[] Of(Func<BudgetValue, double> m2Yr) =>
            [.. result.BudgetValues.Select(v => UnitScale.Area.To(m2Yr(v), units))];
        return new Figure()
            .Add(
                "scatter",
                ("x", budgets),
                ("y", Of(v => v.BoundM2Yr)),
                ("mode", "lines"),
                ("name", "most that any program could avoid"),
                (
                    "line",
                    new
                    {
                        color = ChartPalette.Limit,
                        width = 1.5,
                        dash = "dot",
                    }
                )
            )
            .Add(
                "scatter",
                ("x", budgets),
                ("y", Of(v => v.ValueM2Yr)),
                ("mode", "lines+markers"),
                ("name", "best program"),
                ("line", new { color = ChartPalette.Line(2), width = 2.5 }),
                ("marker", new { size = 9 })
            )
            .Layout(
                (
                    "xaxis",
                    Figure.Axis(
                        $"Budget over all years [{HtmlEscape.ChartLabel(result.Prices)}]",
                        ("rangemode", "tozero")
                    )
                ),
                ("yaxis", Figure.Axis($"Avoided [{unit}]", ("rangemode", "tozero")))
            )
            .ToJson();
    }

    /// <summary>Where the decks lie and how they are; nothing where no deck with an answer has coordinates.</summary>
    /// <param name="result">The results.</param>
    public static ReportChart? Map(NetworkResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var placed = result
            .Decks.Where(d =>
                d
                    is {
                        Member: { LatitudeDeg: not null, LongitudeDeg: not null },
                        DamagedFirstYear: not null
                    }
            )
            .ToList();
        if (placed.Count == 0)
        {
            return null;
        }

        var largest = placed.Max(d => d.AreaM2!.Value);
        var middle = placed.Average(d => d.Member.LatitudeDeg!.Value);
        var json = new Figure()
            .Add(
                "scatter",
                ("x", placed.Select(d => d.Member.LongitudeDeg!.Value).ToArray()),
                ("y", placed.Select(d => d.Member.LatitudeDeg!.Value).ToArray()),
                ("mode", "markers"),
                (
                    "text",
                    placed
                        .Select(d =>
                            HtmlEscape.ChartLabel(d.Name)
                            + "<br>"
                            + HtmlEscape.ChartLabel(NetworkTablesOfReport.Words(d.Best))
                        )
                        .ToArray()
                ),
                (
                    "marker",
                    new
                    {
                        size = placed
                            .Select(d =>
                                Math.Round(8 + 16 * Math.Sqrt(d.AreaM2!.Value / largest), 1)
                            )
                            .ToArray(),
                        color = placed
                            .Select(d => Math.Round(100 * d.DamagedFirstYear!.Value.P50, 2))
                            .ToArray(),
                        symbol = placed
                            .Select(d => d.Best?.Strategy is null ? "circle" : "diamond")
                            .ToArray(),
                        colorscale = ChartPalette.MapScale,
                        colorbar = new
                        {
                            title = new { text = "% damaged" },
                            thickness = 14,
                            outlinewidth = 0,
                        },
                        line = new { width = 1, color = ChartPalette.Limit },
                    }
                ),
                ("hovertemplate", "%{text}<br>%{marker.color:.1f} % damaged<extra></extra>"),
                ("showlegend", false)
            )
            .Layout(
                ("xaxis", Figure.Axis("Longitude [°]")),
                (
                    "yaxis",
                    Figure.Axis(
                        "Latitude [°]",
                        ("scaleanchor", "x"),
                        (
                            "scaleratio",
                            Math.Round(1 / Math.Max(0.05, Math.Cos(middle * Math.PI / 180)), 6)
                        )
                    )
                )
            )
            .ToJson();
        return new ReportChart(
            $"Where the decks lie, {result.Network.FirstYear}",
            "Colour: median share damaged; size: area; diamond: the best program works on it. Without a background map, so that the page asks nothing of the network.",
            $"{placed.Count} decks by longitude and latitude, coloured by the share damaged.",
            460,
            json,
            json,
            new ReportTable(
                "Decks with coordinates",
                [
                    new("Deck"),
                    new("Latitude", true, FixedUnit: "°"),
                    new("Longitude", true, FixedUnit: "°"),
                    new("Damaged", true, IsShare: true),
                ],
                [
                    .. placed.Select(d =>
                        ImmutableArray.Create(
                            ReportCell.Words($"{d.Member.Folder} {d.Name}"),
                            ReportCell.Number(d.Member.LatitudeDeg, 6),
                            ReportCell.Number(d.Member.LongitudeDeg, 6),
                            ReportCell.Percent(d.DamagedFirstYear!.Value.P50)
                        )
                    ),
                ]
            )
        );
    }

    private static ReportTable ConditionNumbers(NetworkResult result) =>
        new(
            "Share of the network's area damaged, by program and year",
            [
                new("Program"),
                new("Year", true),
                new("5th percentile, together", true, IsShare: true),
                new("Median, together", true, IsShare: true),
                new("95th percentile, together", true, IsShare: true),
                new("5th percentile, independent", true, IsShare: true),
                new("Median, independent", true, IsShare: true),
                new("95th percentile, independent", true, IsShare: true),
            ],
            [
                .. result.Plans.SelectMany(p =>
                    p.Condition.Select(y =>
                        ImmutableArray.Create(
                            ReportCell.Words(p.Name),
                            ReportCell.Whole(y.Year),
                            ReportCell.Percent(y.Damaged.Together.P05),
                            ReportCell.Percent(y.Damaged.Together.P50),
                            ReportCell.Percent(y.Damaged.Together.P95),
                            ReportCell.Percent(y.Damaged.Independent.P05),
                            ReportCell.Percent(y.Damaged.Independent.P50),
                            ReportCell.Percent(y.Damaged.Independent.P95)
                        )
                    )
                ),
            ]
        );
}
