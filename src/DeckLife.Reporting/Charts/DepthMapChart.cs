using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>Years, cost and grade of one material over removal depth and overlay thickness, with contours.</summary>
public static class DepthMapChart
{
    // Pale throughout: the numbers on the contours are black.
    private static readonly object[][] LightScale =
    [
        [0, "#F4F8FC"],
        [1, "#7FB2D9"],
    ];

    /// <summary>Draws the map of one material.</summary>
    /// <param name="map">The map.</param>
    /// <param name="material">Place of the material in the plan.</param>
    public static ReportChart Draw(DepthMap map, int material)
    {
        ArgumentNullException.ThrowIfNull(map);
        var name = map.Plan.Materials[material];
        var cells = map.Cells.Where(c => c.Material == name).ToImmutableArray();
        return new ReportChart(
            $"Removal depth and overlay thickness: {name}",
            "Contours: years until the end in the mean, those beyond the horizon counted as the horizon; mean present value in thousands; rise of the grade. Cross: breaks a limit. Square: refused. Diamond: the deck's own strategies. Star: the best case.",
            Words(map, name, cells),
            380,
            Figure(map, material, UnitSystem.Si),
            Figure(map, material, UnitSystem.UsCustomary),
            new($"Cases of {name}", Columns(map), [.. cells.Select(Row)])
        );
    }

    /// <summary>The columns of a case.</summary>
    internal static ImmutableArray<ReportColumn> Columns(DepthMap map) =>
        [
            new("Removal", true, UnitScale.Depth),
            new("Overlay thickness", true, UnitScale.Depth),
            new("Material"),
            new("Mean years to the end, within the horizon", true, FixedUnit: "yr"),
            new("Median", true, FixedUnit: "yr"),
            new($"Mean present value {map.Deck.Prices?.Currency}".TrimEnd(), true),
            new("First cost", true),
            new("Grade rise", true, UnitScale.Depth),
            new("Old concrete left", true, UnitScale.Depth),
            new("Bars exposed at once", true),
            new("Limits"),
        ];

    /// <summary>One case.</summary>
    internal static ImmutableArray<ReportCell> Row(DepthMapCell cell) =>
        [
            ReportCell.Quantity(UnitScale.Depth, cell.Removal.Millimetres),
            ReportCell.Quantity(UnitScale.Depth, cell.Thickness.Millimetres),
            ReportCell.Words(cell.Material),
            ReportCell.Number(cell.ExpectedYears),
            cell.Projection is { } p
                ? LifeText.Cell(p.ServiceLife.P50Yr)
                : ReportCell.Missing("refused"),
            ReportCell.Number(cell.ExpectedPresentValue, 4),
            ReportCell.Number(cell.FirstCost, 4),
            ReportCell.Quantity(UnitScale.Depth, Grade(cell)),
            ReportCell.Quantity(UnitScale.Depth, cell.RemainingMm),
            ReportCell.Percent(cell.BarsExposed),
            ReportCell.Words(
                cell.Refusal is { } refusal ? "refused: " + refusal.Text
                : cell.Broken.IsEmpty ? "kept"
                : "breaks " + string.Join(", ", cell.Broken.Select(b => b.Limit))
            ),
        ];

    private static double? Grade(DepthMapCell cell) =>
        cell.Projection is { Interventions.IsEmpty: false } p
            ? p.Interventions[0].GradeRiseMm
            : null;

    private static string Words(DepthMap map, string name, ImmutableArray<DepthMapCell> cells)
    {
        var allowed = cells.Where(c => c.IsAllowed).ToArray();
        var longest = allowed.MaxBy(c => c.ExpectedYears);
        return longest is null
            ? $"No case of {name} keeps the limits."
            : $"Of {NumberNotation.Fixed(cells.Length, 0)} cases of {name}, {NumberNotation.Fixed(allowed.Length, 0)} keep the limits; the longest-lived of them removes {QuantityHtml.Text(UnitScale.Depth, longest.Removal.Millimetres, UnitSystem.Si)} and places {QuantityHtml.Text(UnitScale.Depth, longest.Thickness.Millimetres, UnitSystem.Si)}: {LifeText.Years(longest.ExpectedYears ?? 0)} years in the mean.";
    }

    private static string Figure(DepthMap map, int material, UnitSystem units)
    {
        var name = map.Plan.Materials[material];
        double In(double mm) => Math.Round(UnitScale.Depth.To(mm, units), 4);
        var figure = new Figure();
        var panels = new List<(string Title, Func<DepthMapCell, double?> Value)>
        {
            ("Years", c => c.ExpectedYears),
        };
        if (map.Deck.Prices is { } prices)
        {
            panels.Add(
                ($"Present value [1000 {prices.Currency}]", c => c.ExpectedPresentValue / 1000)
            );
        }

        panels.Add(
            ($"Grade rise [{UnitScale.Depth.Unit(units)}]", c => Grade(c) is { } mm ? In(mm) : null)
        );
        var removals = map.Plan.RemovalDepths.Select(d => In(d.Millimetres)).ToArray();
        var thicknesses = map.Plan.Thicknesses.Select(d => In(d.Millimetres)).ToArray();
        var layout = new List<(string, object)>();
        var titles = new List<object>();
        for (var panel = 0; panel < panels.Count; panel++)
        {
            var suffix = panel == 0 ? "" : NumberNotation.Fixed(panel + 1, 0);
            var value = panels[panel].Value;
            figure.Add(
                "contour",
                ("x", removals),
                ("y", thicknesses),
                (
                    "z",
                    thicknesses
                        .Select(
                            (_, t) =>
                                removals
                                    .Select(
                                        (_, r) =>
                                            value(map.At(material, t, r)) is { } v
                                            && double.IsFinite(v)
                                                ? Math.Round(v, 3)
                                                : (double?)null
                                    )
                                    .ToArray()
                        )
                        .ToArray()
                ),
                ("xaxis", "x" + suffix),
                ("yaxis", "y" + suffix),
                ("colorscale", LightScale),
                ("showscale", false),
                ("ncontours", 12),
                ("contours", new { coloring = "heatmap", showlabels = true }),
                ("hovertemplate", "removal %{x}, overlay %{y}: %{z:.4~r}<extra></extra>")
            );
            var here = map.Cells.Where(c => c.Material == name).ToArray();
            Marks(
                here.Where(c => c.Projection is not null && !c.IsAllowed),
                "x",
                7,
                "#FFFFFF",
                suffix
            );
            Marks(
                here.Where(c => c.Refusal is not null),
                "square",
                9,
                ChartPalette.LeftOut,
                suffix
            );
            Marks(
                map.Points.Where(c => c.Material == name),
                "diamond",
                11,
                ChartPalette.Fitted,
                suffix
            );
            if (map.Choice?.Best is { } best && best.Material == name)
            {
                Marks([best], "star", 16, "#FFFFFF", suffix);
            }

            var from = (double)panel / panels.Count;
            var to = (panel + 0.86) / panels.Count;
            layout.Add(
                (
                    "xaxis" + suffix,
                    Charts.Figure.Axis(
                        $"Removal [{UnitScale.Depth.Unit(units)}]",
                        ("domain", new[] { from, to }),
                        ("anchor", "y" + suffix)
                    )
                )
            );
            layout.Add(
                (
                    "yaxis" + suffix,
                    Charts.Figure.Axis(
                        panel == 0 ? $"Overlay thickness [{UnitScale.Depth.Unit(units)}]" : "",
                        ("anchor", "x" + suffix)
                    )
                )
            );
            titles.Add(
                new
                {
                    text = HtmlEscape.ChartLabel(panels[panel].Title),
                    xref = "paper",
                    yref = "paper",
                    x = 0.5 * (from + to),
                    y = 1.02,
                    yanchor = "bottom",
                    showarrow = false,
                }
            );
        }

        layout.Add(("annotations", titles.ToArray()));
        layout.Add(("showlegend", false));
        layout.Add(
            (
                "margin",
                new
                {
                    l = 64,
                    r = 16,
                    t = 40,
                    b = 56,
                }
            )
        );
        return figure.Layout([.. layout]).ToJson();

        void Marks(
            IEnumerable<DepthMapCell> marked,
            string symbol,
            int size,
            string colour,
            string suffix
        )
        {
            var all = marked.ToArray();
            if (all.Length == 0)
            {
                return;
            }

            figure.Add(
                "scatter",
                ("x", all.Select(c => In(c.Removal.Millimetres)).ToArray()),
                ("y", all.Select(c => In(c.Thickness.Millimetres)).ToArray()),
                ("xaxis", "x" + suffix),
                ("yaxis", "y" + suffix),
                ("mode", "markers"),
                (
                    "marker",
                    new
                    {
                        symbol,
                        size,
                        color = colour,
                        line = new { color = "#222222", width = 1 },
                    }
                ),
                ("text", all.Select(c => HtmlEscape.ChartLabel(c.Name ?? "")).ToArray()),
                ("hovertemplate", "%{text} removal %{x}, overlay %{y}<extra></extra>")
            );
        }
    }
}
