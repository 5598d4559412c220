using System.Collections.Immutable;
using DeckLife.Mapping;
using DeckLife.Projection;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>The deck in plan: how probable corrosion or damage is at each place, under what the surveys saw there.</summary>
public static class ProbabilityMapChart
{
    private const double SoonYr = 20;

    /// <summary>Corrosion at the survey; nothing where the projection has no map.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportChart? Active(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return projection.Map is { } map
            ? Draw(
                projection,
                map,
                "Where corrosion is probable now",
                "Probability that a place corrodes at the survey, the damaged places included. "
                    + Reading(map),
                c => c.Active,
                Table(map)
            )
            : null;
    }

    /// <summary>Damage after the survey if nothing is done; nothing where the projection has no map or too short a horizon.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportChart? DamagedLater(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        if (projection.Map is not { } map || map.LaterYr.IsEmpty)
        {
            return null;
        }

        var t = 0;
        for (var i = 1; i < map.LaterYr.Length; i++)
        {
            t = map.LaterYr[i] <= SoonYr ? i : t;
        }

        var year = projection.Deck.SurveyYear + (int)map.LaterYr[t];
        return Draw(
            projection,
            map,
            FormattableString.Invariant($"Where damage is probable by {year} if nothing is done"),
            "Probability that a place is damaged, or was and is patched. What the surveys see today stays where it is; the deck's share grows as in the do-nothing projection.",
            c => c.DamagedLater[t],
            Zones(projection, map)
        );
    }

    private static ReportChart Draw(
        DeckProjection projection,
        DeckMap map,
        string title,
        string note,
        Func<DeckMapCell, double> value,
        ReportTable numbers
    )
    {
        var deck = projection.Deck;
        double[] across = [.. map.Cells.Select(c => c.Y).Distinct().Order()];
        double[] along = [.. map.Cells.Select(c => c.X).Distinct().Order()];
        var byPlace = map.Cells.ToDictionary(c => (c.X, c.Y), value);
        double?[][] rows =
        [
            .. across.Select(y =>
                along
                    .Select(x =>
                        byPlace.TryGetValue((x, y), out var p) ? Math.Round(p, 4) : (double?)null
                    )
                    .ToArray()
            ),
        ];
        string Json(UnitSystem system)
        {
            double P(double m) => UnitScale.Position.To(m, system);
            var figure = new Figure().Add(
                "heatmap",
                ("x", along.Select(P).ToArray()),
                ("y", across.Select(P).ToArray()),
                ("z", rows),
                ("colorscale", ChartPalette.MapScale),
                ("zmin", 0),
                ("zmax", Math.Max(0.1, Math.Ceiling(10 * map.Cells.Max(value)) / 10)),
                (
                    "colorbar",
                    new
                    {
                        title = new { text = "probability" },
                        tickformat = ".0%",
                        thickness = 14,
                        outlinewidth = 0,
                    }
                ),
                ("hovertemplate", "%{z:.1%}<extra></extra>"),
                ("showlegend", false)
            );
            if (!deck.HalfCells.IsDefaultOrEmpty)
            {
                figure.Add(
                    "scatter",
                    ("x", deck.HalfCells.Select(h => P(h.X)).ToArray()),
                    ("y", deck.HalfCells.Select(h => P(h.Y)).ToArray()),
                    ("mode", "markers"),
                    ("name", "half-cell node"),
                    (
                        "marker",
                        new
                        {
                            size = 3,
                            color = "#FFFFFF",
                            opacity = 0.7,
                        }
                    ),
                    ("hoverinfo", "skip")
                );
            }

            DeckMapChart.Outlines(figure, deck, system);
            DeckMapChart.Cores(figure, deck, system);
            return DeckMapChart.Axes(figure, system).ToJson();
        }

        var high = map.Cells.MaxBy(value)!;
        return new(
            title,
            note,
            FormattableString.Invariant(
                $"Plan of the deck in {map.Cells.Length} cells: probabilities from {NumberNotation.Percent(map.Cells.Min(value))} to {NumberNotation.Percent(value(high))}, mean {NumberNotation.Percent(map.Cells.Average(value))}; highest around {high.X:F0} m along and {high.Y:F0} m across."
            ),
            360,
            Json(UnitSystem.Si),
            Json(UnitSystem.UsCustomary),
            numbers
        );
    }

    private static string Reading(DeckMap map) =>
        FormattableString.Invariant(
            $"Cells of {map.CellLengthM:F1} by {map.CellWidthM:F1} m. What one place shares with its neighbours reaches {map.LengthM:F1} m (90 % limits {map.LengthP05M:F1} to {map.LengthP95M:F1}); {100 * map.LocalShare:F0} % of it is local and can't be carried from one place to the next. A probability, not a finding."
        );

    private static ReportTable Table(DeckMap map) =>
        new(
            "Probability of corrosion and damage by place",
            [
                new("Along", true, UnitScale.Position),
                new("Across", true, UnitScale.Position),
                new("Nodes", true),
                new("Found hollow or spalled", true, IsShare: true),
                new("Patched", true, IsShare: true),
                new("Corroding", true, IsShare: true),
                new("Damaged", true, IsShare: true),
                .. LaterColumns(map),
            ],
            [
                .. map.Cells.Select(c =>
                    ImmutableArray.Create<ReportCell>([
                        ReportCell.Quantity(UnitScale.Position, c.X),
                        ReportCell.Quantity(UnitScale.Position, c.Y),
                        ReportCell.Whole(c.Nodes),
                        ReportCell.Percent(c.Unsound),
                        ReportCell.Percent(c.Patched),
                        ReportCell.Percent(c.Active),
                        ReportCell.Percent(c.Damaged),
                        .. c.DamagedLater.Select(p => ReportCell.Percent(p)),
                    ])
                ),
            ]
        );

    private static ReportTable Zones(DeckProjection projection, DeckMap map) =>
        new(
            "Corrosion and damage by zone of the deck",
            [
                new("Zone"),
                new("Share of the plan", true, IsShare: true),
                new("Nodes", true),
                new("Mean cover", true, UnitScale.Depth),
                new("Corroding", true, IsShare: true),
                new("Damaged", true, IsShare: true),
                .. LaterColumns(map),
            ],
            [
                .. map
                    .Zones.Append(
                        new(
                            "whole plan",
                            1,
                            map.Cells.Sum(c => c.Nodes),
                            projection.Deck.Covers.IsDefaultOrEmpty
                                ? null
                                : projection.Deck.Covers.Average(c => c.Cover.Millimetres),
                            map.Cells.Average(c => c.Active),
                            map.Cells.Average(c => c.Damaged),
                            [
                                .. map.LaterYr.Select(
                                    (_, t) => map.Cells.Average(c => c.DamagedLater[t])
                                ),
                            ]
                        )
                    )
                    .Select(z =>
                        ImmutableArray.Create<ReportCell>([
                            ReportCell.Words(z.Name),
                            ReportCell.Percent(z.AreaShare),
                            ReportCell.Whole(z.Nodes),
                            ReportCell.Quantity(UnitScale.Depth, z.CoverMm),
                            ReportCell.Percent(z.Active),
                            ReportCell.Percent(z.Damaged),
                            .. z.DamagedLater.Select(p => ReportCell.Percent(p)),
                        ])
                    ),
            ]
        );

    private static IEnumerable<ReportColumn> LaterColumns(DeckMap map) =>
        map.LaterYr.Select(t => new ReportColumn(
            FormattableString.Invariant($"Damaged or patched after {t:F0} yr"),
            true,
            IsShare: true
        ));

    /// <summary>Shares by zone as a table of its own; nothing where the projection has no map or no zones.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportTable? ByZone(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return projection.Map is { Zones.IsEmpty: false } map ? Zones(projection, map) : null;
    }
}
