using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using DeckLife.Projection;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>Controls over results that were computed before: removal depth, overlay and threshold change the curve and the answer, without a kernel.</summary>
/// <param name="exploration">The results.</param>
public sealed class ExplorerPart(StrategyExploration exploration) : IReportPart
{
    private static readonly JsonWriterOptions Compact = new() { Indented = false };

    /// <summary>Every case, one row each.</summary>
    public ReportTable Numbers() =>
        new(
            "All cases computed",
            [
                new("Removal", true, UnitScale.Depth),
                new("Overlay"),
                new("Overlay thickness", true, UnitScale.Depth),
                new("Mean threshold", true, UnitScale.Chloride),
                new("5th percentile", true, FixedUnit: "yr"),
                new("Median", true, FixedUnit: "yr"),
                new("95th percentile", true, FixedUnit: "yr"),
                new("Present value, median", true),
            ],
            [
                .. exploration.Cases.Select(c =>
                    ImmutableArray.Create(
                        ReportCell.Quantity(UnitScale.Depth, Removal(c)),
                        ReportCell.Words(exploration.Plan.Overlays[c.Overlay].Material),
                        ReportCell.Quantity(
                            UnitScale.Depth,
                            exploration.Plan.Overlays[c.Overlay].Thickness.Millimetres
                        ),
                        ReportCell.Quantity(UnitScale.Chloride, Threshold(c.Threshold)),
                        Life(c, l => l.P05Yr),
                        Life(c, l => l.P50Yr),
                        Life(c, l => l.P95Yr),
                        c.Projection?.Cost is { } cost
                            ? ReportCell.Number(cost.PresentValue.P50)
                            : ReportCell.Missing()
                    )
                ),
            ]
        );

    /// <inheritdoc/>
    public string ToText() => Numbers().ToText();

    /// <inheritdoc/>
    public HtmlFragment ToHtml()
    {
        var first = exploration.Cases.FirstOrDefault(c =>
            c.Projection is not null && exploration.Plan.ThresholdFactors[c.Threshold] == 1
        );
        first ??= exploration.Cases.FirstOrDefault(c => c.Projection is not null);
        if (first is null)
        {
            return HtmlFragment.Of(
                $"<p>No case could be projected: {exploration.Cases.FirstOrDefault()?.Refusal?.Text ?? "the plan is empty"}</p>"
            );
        }

        return HtmlFragment.Of(
            $"""
            <div class="dl-explorer" role="group" aria-label="Look through the cases that were computed">
            <div class="dl-controls">
            <label>Removal <input type="range" name="removal" min="0" max="{exploration.Plan.RemovalDepths.Length
                - 1}" step="1" value="{first.Removal}"> <span class="dl-removal">{QuantityHtml.Value(
                UnitScale.Depth,
                Removal(first)
            )}</span></label>
            {Choice(
                "overlay",
                "Overlay",
                first.Overlay,
                exploration.Plan.Overlays.Select(o => OverlayText(o))
            )}
            {Choice(
                "threshold",
                "Mean threshold",
                first.Threshold,
                exploration.Plan.ThresholdFactors.Select((_, t) => ThresholdText(t))
            )}
            </div>
            <p class="dl-explorer-answer" aria-live="polite">{Sentence(first)}</p>
            {Chart(first).ToHtml()}
            <script type="application/json" class="dl-cases">{new HtmlFragment(
                HtmlEscape.JsonInScript(CasesJson())
            )}</script>
            </div>
            <script>window.DeckLife&&window.DeckLife.explore();</script>

            """
        );
    }

    private ReportChart Chart(ExplorationCase first)
    {
        var years = first.Projection!.Curve.Select(p => Year(p.TimeYr)).ToArray();
        var figure = new Figure();
        var colour = ChartPalette.Line(0);
        (string, object?)[] edge =
        [
            ("x", years),
            ("mode", "lines"),
            ("line", new { width = 0, color = colour }),
            ("hoverinfo", "skip"),
            ("showlegend", false),
        ];
        var curve = first.Projection.Curve;
        figure.Add("scatter", [.. edge, ("y", Percent(curve, p => p.P05))]);
        figure.Add(
            "scatter",
            [
                .. edge,
                ("y", Percent(curve, p => p.P95)),
                ("fill", "tonexty"),
                ("fillcolor", ChartPalette.Translucent(colour, "0.18")),
            ]
        );
        figure.Add(
            "scatter",
            ("x", years),
            ("y", Percent(curve, p => p.P50)),
            ("mode", "lines"),
            ("line", new { width = 2.5, color = colour }),
            ("hovertemplate", "%{x:.0f}: %{y:.1f} % (median)<extra></extra>")
        );
        var limit = 100 * exploration.Deck.DamageLimit;
        var top = Math.Max(
            1.5 * limit,
            100
                * exploration
                    .Cases.Where(c => c.Projection is not null)
                    .SelectMany(c => c.Projection!.Curve)
                    .Max(p => p.Damaged.P95)
        );
        var json = figure
            .Layout(
                ("xaxis", Figure.Axis("Calendar year", ("tickformat", "d"))),
                (
                    "yaxis",
                    Figure.Axis(
                        "Share of the deck area damaged [%]",
                        ("range", new[] { 0, Math.Min(105, top) })
                    )
                ),
                ("showlegend", false),
                ("hovermode", "x"),
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
                )
            )
            .ToJson();
        return new ReportChart(
            "Damaged area by year, for the case chosen above",
            $"Line: median; shaded: 5th to 95th percentile; dotted: the limit of {NumberNotation.Trimmed(limit)} %. Each case rests on {exploration.Plan.Draws.ToString(CultureInfo.InvariantCulture)} draws: coarser than the strategies' own curves.",
            $"Share of the deck area damaged against calendar year for one of {exploration.Cases.Length} cases; the table holds the years to the limit of all cases.",
            360,
            json,
            json,
            Numbers()
        );
    }

    private string CasesJson()
    {
        using var buffer = new MemoryStream();
        using (var writer = new Utf8JsonWriter(buffer, Compact))
        {
            writer.WriteStartArray();
            foreach (var c in exploration.Cases)
            {
                writer.WriteStartObject();
                writer.WriteNumber("removal", c.Removal);
                writer.WriteNumber("overlay", c.Overlay);
                writer.WriteNumber("threshold", c.Threshold);
                writer.WriteString(
                    "depthSi",
                    QuantityHtml.Text(UnitScale.Depth, Removal(c), UnitSystem.Si)
                );
                writer.WriteString(
                    "depthUs",
                    QuantityHtml.Text(UnitScale.Depth, Removal(c), UnitSystem.UsCustomary)
                );
                writer.WriteString("text", Sentence(c));
                if (c.Projection is { } projection)
                {
                    Series(writer, "p05", Percent(projection.Curve, p => p.P05));
                    Series(writer, "p50", Percent(projection.Curve, p => p.P50));
                    Series(writer, "p95", Percent(projection.Curve, p => p.P95));
                }

                writer.WriteEndObject();
            }

            writer.WriteEndArray();
        }

        return System.Text.Encoding.UTF8.GetString(buffer.ToArray());
    }

    private static void Series(Utf8JsonWriter writer, string name, double[] values)
    {
        writer.WriteStartArray(name);
        foreach (var value in values)
        {
            // One hundredth of a percent is finer than any line on the page.
            writer.WriteNumberValue(Math.Round(double.IsFinite(value) ? value : 0, 2));
        }

        writer.WriteEndArray();
    }

    private string Sentence(ExplorationCase c)
    {
        if (c.Projection is not { } projection)
        {
            return "Not projected: " + (c.Refusal?.Text ?? "refused");
        }

        var cost = projection.Cost is { } money
            ? $" Present value {NumberNotation.Money(money.PresentValue.P50, money.Currency)} in the median."
            : "";
        var flags = string.Concat(projection.Flags.Select(f => " " + f.Text));
        return LifeText.Sentence(projection.ServiceLife, exploration.Deck.Horizon.Years)
            + cost
            + flags;
    }

    private static HtmlFragment Choice(
        string name,
        string label,
        int chosen,
        IEnumerable<(string Si, string Us)> options
    ) =>
        HtmlFragment.Of(
            $"<label>{label} <select name=\"{name}\">{HtmlFragment.Join(options.Select((o, i) => HtmlFragment.Of($"<option value=\"{i}\"{(i == chosen ? new HtmlFragment(" selected") : HtmlFragment.Empty)} data-si=\"{o.Si}\" data-us=\"{o.Us}\">{o.Si}</option>")))}</select></label>"
        );

    private static (string Si, string Us) OverlayText(Rehabilitation.OverlayPlacement overlay) =>
        (
            $"{QuantityHtml.Text(UnitScale.Depth, overlay.Thickness.Millimetres, UnitSystem.Si)} {overlay.Material}",
            $"{QuantityHtml.Text(UnitScale.Depth, overlay.Thickness.Millimetres, UnitSystem.UsCustomary)} {overlay.Material}"
        );

    private (string Si, string Us) ThresholdText(int index) =>
        (
            QuantityHtml.Text(UnitScale.Chloride, Threshold(index), UnitSystem.Si) + Given(index),
            QuantityHtml.Text(UnitScale.Chloride, Threshold(index), UnitSystem.UsCustomary)
                + Given(index)
        );

    private string Given(int index) =>
        exploration.Plan.ThresholdFactors[index] == 1 ? " (as given)" : "";

    private double Threshold(int index) =>
        exploration.Deck.Threshold.Content.Mean * exploration.Plan.ThresholdFactors[index];

    private double Removal(ExplorationCase c) =>
        exploration.Plan.RemovalDepths[c.Removal].Millimetres;

    private double Year(double timeYr) => exploration.Deck.SurveyYear + timeYr;

    private static double[] Percent(
        ImmutableArray<CurvePoint> curve,
        Func<PercentileBand, double> of
    ) => [.. curve.Select(p => 100 * of(p.Damaged))];

    private static ReportCell Life(ExplorationCase c, Func<ServiceLife, double?> of) =>
        c.Projection is { } projection
            ? LifeText.Cell(of(projection.ServiceLife))
            : ReportCell.Missing("refused");
}
