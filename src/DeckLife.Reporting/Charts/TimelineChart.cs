using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>The timeline of one place, drawn: salt at the bar, threshold, interventions, initiation and damage.</summary>
public static class TimelineChart
{
    /// <summary>Draws the timeline; its table gives every year.</summary>
    /// <param name="deck">The deck, for the calendar.</param>
    /// <param name="timeline">The timeline.</param>
    public static ReportChart Draw(Deck deck, PointTimeline timeline)
    {
        ArgumentNullException.ThrowIfNull(deck);
        ArgumentNullException.ThrowIfNull(timeline);
        return new(
            $"One place under \"{timeline.Strategy.Name}\"",
            "Line: content at the bar; dashed: threshold; upright lines: interventions. Corrosion begins where the highest content that the bar has seen meets the threshold, and starts again where the bar is laid in new material.",
            Words(deck, timeline),
            380,
            Json(deck, timeline, UnitSystem.Si),
            Json(deck, timeline, UnitSystem.UsCustomary),
            Numbers(deck, timeline)
        );
    }

    /// <summary>What is done at the place, and what becomes of its bar, in the order of time.</summary>
    /// <param name="deck">The deck, for the calendar.</param>
    /// <param name="timeline">The timeline.</param>
    public static ReportTable Steps(Deck deck, PointTimeline timeline)
    {
        ArgumentNullException.ThrowIfNull(deck);
        ArgumentNullException.ThrowIfNull(timeline);
        return new(
            "What happens at the place",
            [
                new("Year", true),
                new("What"),
                new("Content at the bar", true, Scale: UnitScale.Chloride),
            ],
            [
                .. Happenings(timeline)
                    .Select(h =>
                        ImmutableArray.Create(
                            ReportCell.Number(Math.Round(deck.SurveyYear + h.TimeYr, 1), 5),
                            ReportCell.Words(h.What),
                            ReportCell.Quantity(UnitScale.Chloride, h.Content)
                        )
                    ),
            ]
        );
    }

    private static List<(double TimeYr, string What, double Content)> Happenings(
        PointTimeline timeline
    )
    {
        var list = new List<(double TimeYr, string What, double Content)>();
        var threshold = timeline.Place.Threshold.KilogramsPerCubicMetre;
        foreach (var fate in timeline.Fates)
        {
            if (fate.InitiationYr is { } begun)
            {
                list.Add((begun, "corrosion begins", threshold));
            }

            if (fate.DamageYr is { } damaged)
            {
                list.Add((damaged, "damage shows", Content(timeline, damaged)));
            }
        }

        foreach (var done in timeline.Events)
        {
            list.Add((done.TimeYr, "before the work", done.ContentBeforeKgPerM3));
            list.Add((done.TimeYr, What(done), done.ContentAfterKgPerM3));
        }

        return [.. list.OrderBy(h => h.TimeYr)];
    }

    private static double Content(PointTimeline timeline, double timeYr) =>
        timeline.Rows.Last(r => r.TimeYr <= timeYr).ContentKgPerM3;

    private static string What(TimelineEvent done)
    {
        var removed = FormattableString.Invariant($"{done.RemovedMm:0.#} mm off");
        var placed =
            done.PlacedMm > 0
                ? FormattableString.Invariant(
                    $", {done.PlacedMm:0.#} mm of {done.Material ?? "concrete like the deck's"} on"
                )
            : done.Material is null ? ""
            : $", {done.Material} on";
        var why =
            done.IsRepaired ? ": repaired, the bar lies in new material"
            : done.IsUndercut ? ": undercut, the bar lies in new material"
            : "";
        return removed + placed + why;
    }

    private static string Words(Deck deck, PointTimeline timeline) =>
        string.Join(
            "; ",
            Happenings(timeline)
                .Where(h => h.What != "before the work")
                .Select(h =>
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{deck.SurveyYear + h.TimeYr:0.#}: {h.What}"
                    )
                )
        );

    private static ReportTable Numbers(Deck deck, PointTimeline timeline) =>
        new(
            "The place, year by year",
            [
                new("Year", true),
                new("Cover", true, Scale: UnitScale.Depth),
                new("Content at the bar", true, Scale: UnitScale.Chloride),
                new("Highest so far", true, Scale: UnitScale.Chloride),
                new("Bar"),
            ],
            [
                .. timeline.Rows.Select(r =>
                    ImmutableArray.Create(
                        ReportCell.Number(Math.Round(deck.SurveyYear + r.TimeYr, 2), 6),
                        ReportCell.Quantity(UnitScale.Depth, r.CoverMm),
                        ReportCell.Quantity(UnitScale.Chloride, r.ContentKgPerM3, 4),
                        ReportCell.Quantity(UnitScale.Chloride, r.HighestKgPerM3, 4),
                        ReportCell.Words(
                            r.Condition switch
                            {
                                PointCondition.Damaged => "damaged",
                                PointCondition.Active => "corroding",
                                _ => "passive",
                            }
                        )
                    )
                ),
            ]
        );

    private static string Json(Deck deck, PointTimeline timeline, UnitSystem system)
    {
        double[] years = [.. timeline.Rows.Select(r => deck.SurveyYear + r.TimeYr)];
        double[] contents =
        [
            .. timeline.Rows.Select(r => UnitScale.Chloride.To(r.ContentKgPerM3, system)),
        ];
        var threshold = UnitScale.Chloride.To(
            timeline.Place.Threshold.KilogramsPerCubicMetre,
            system
        );
        var top = 1.05 * Math.Max(threshold, contents.Max());
        var colour = ChartPalette.Line(0);
        var figure = new Figure()
            .Add(
                "scatter",
                ("x", years),
                ("y", contents),
                ("mode", "lines"),
                ("name", "content at the bar"),
                ("line", new { color = colour, width = 2.5 })
            )
            .Add(
                "scatter",
                ("x", new[] { years[0], years[^1] }),
                ("y", new[] { threshold, threshold }),
                ("mode", "lines"),
                ("name", "threshold"),
                ("line", new { color = ChartPalette.Line(1), dash = "dash" })
            );
        foreach (var done in timeline.Events)
        {
            var at = deck.SurveyYear + done.TimeYr;
            figure.Add(
                "scatter",
                ("x", new[] { at, at }),
                ("y", new[] { 0, top }),
                ("mode", "lines"),
                ("name", HtmlEscape.ChartLabel(What(done))),
                ("line", new { color = ChartPalette.Line(2), width = 1.5 })
            );
        }

        foreach (
            var (mark, name) in timeline.Fates.SelectMany(f =>
                new[] { (f.InitiationYr, "corrosion begins"), (f.DamageYr, "damage shows") }
            )
        )
        {
            if (mark is { } at)
            {
                figure.Add(
                    "scatter",
                    ("x", new[] { deck.SurveyYear + at }),
                    ("y", new[] { UnitScale.Chloride.To(Content(timeline, at), system) }),
                    ("mode", "markers"),
                    ("name", name),
                    ("marker", new { size = 10, color = ChartPalette.Measured })
                );
            }
        }

        return figure
            .Layout(
                ("xaxis", Figure.Axis("Year")),
                ("yaxis", Figure.Axis($"Chloride at the bar [{UnitScale.Chloride.Unit(system)}]")),
                (
                    "margin",
                    new
                    {
                        l = 56,
                        r = 12,
                        t = 8,
                        b = 48,
                    }
                )
            )
            .ToJson();
    }
}
