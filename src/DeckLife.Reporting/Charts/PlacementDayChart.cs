using System.Collections.Immutable;
using DeckLife.Placement;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>Evaporation over a placement day with its scatter, against the specification's limit.</summary>
public static class PlacementDayChart
{
    private static readonly UnitScale Rate = new(
        "evaporation",
        "kg/m²/h",
        "lb/ft²/h",
        1 / EvaporationRate.KgPerM2PerLbPerFt2
    );

    /// <summary>Draws the chart.</summary>
    /// <param name="hours">The hours compared, at least one.</param>
    /// <param name="limits">The limits.</param>
    public static ReportChart Draw(ImmutableArray<PlacementHour> hours, PlacementLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        var above = hours.Count(h => h.EvaporationOutcome == BandOutcome.Above);
        var open = hours.Count(h => h.EvaporationOutcome == BandOutcome.Straddles);
        var words = limits.GreatestEvaporationKgPerM2H is null
            ? "No limit is given."
            : $"Of {hours.Length} readings, the whole band lies above the limit in {above}, and straddles it in {open}.";
        return new ReportChart(
            "Evaporation over the day",
            $"Line: estimate by Uno 1998; shaded: its scatter of 40 % either way; dotted: the limit. {PlacementDay.Caution}",
            words,
            320,
            Figure(hours, limits, UnitSystem.Si),
            Figure(hours, limits, UnitSystem.UsCustomary),
            new(
                "Evaporation by reading",
                [
                    new("Time"),
                    new("Low", true, Rate),
                    new("Estimate", true, Rate),
                    new("High", true, Rate),
                ],
                [
                    .. hours.Select(h =>
                        ImmutableArray.Create(
                            ReportCell.Words(h.Reading.Time),
                            ReportCell.Quantity(Rate, h.Evaporation.Low),
                            ReportCell.Quantity(Rate, h.Evaporation.Estimate),
                            ReportCell.Quantity(Rate, h.Evaporation.High)
                        )
                    ),
                ]
            )
        );
    }

    private static string Figure(
        ImmutableArray<PlacementHour> hours,
        PlacementLimits limits,
        UnitSystem units
    )
    {
        var times = hours
            .Select(
                (h, i) =>
                    h.Reading.Time.Length > 0
                        ? HtmlEscape.ChartLabel(h.Reading.Time)
                        : NumberNotation.Fixed(i + 1, 0)
            )
            .ToArray();
        double[] In(Func<PlacementHour, double> of) =>
            [.. hours.Select(h => Rate.To(of(h), units))];
        var colour = ChartPalette.Line(0);
        (string, object?)[] edge =
        [
            ("x", times),
            ("mode", "lines"),
            ("line", new { width = 0, color = colour }),
            ("hoverinfo", "skip"),
        ];
        var figure = new Figure();
        figure.Add("scatter", [.. edge, ("y", In(h => h.Evaporation.Low))]);
        figure.Add(
            "scatter",
            [
                .. edge,
                ("y", In(h => h.Evaporation.High)),
                ("fill", "tonexty"),
                ("fillcolor", ChartPalette.Translucent(colour, "0.18")),
            ]
        );
        figure.Add(
            "scatter",
            ("x", times),
            ("y", In(h => h.Evaporation.Estimate)),
            ("mode", "lines+markers"),
            ("line", new { width = 2.5, color = colour }),
            ("hovertemplate", "%{x}: %{y:.2f}<extra></extra>")
        );
        if (limits.GreatestEvaporationKgPerM2H is { } limit)
        {
            figure.Add(
                "scatter",
                ("x", new[] { times[0], times[^1] }),
                ("y", new[] { Rate.To(limit, units), Rate.To(limit, units) }),
                ("mode", "lines"),
                (
                    "line",
                    new
                    {
                        width = 1.5,
                        dash = "dot",
                        color = ChartPalette.Limit,
                    }
                ),
                ("hoverinfo", "skip")
            );
        }

        return figure
            .Layout(
                ("xaxis", Charts.Figure.Axis("Time", ("type", "category"))),
                (
                    "yaxis",
                    Charts.Figure.Axis($"Evaporation [{Rate.Unit(units)}]", ("rangemode", "tozero"))
                ),
                ("showlegend", false)
            )
            .ToJson();
    }
}
