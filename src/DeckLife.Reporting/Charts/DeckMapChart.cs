using System.Collections.Immutable;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;
using DeckLife.Surveys;

namespace DeckLife.Reporting.Charts;

/// <summary>The deck in plan: half-cell potentials, what sounding found, and where the cores were taken.</summary>
public static class DeckMapChart
{
    /// <summary>Draws the map; nothing where nothing has a position.</summary>
    /// <param name="deck">The deck.</param>
    public static ReportChart? Draw(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        var cores = deck.Cores.Where(c => c.X is not null && c.Y is not null).ToList();
        var areas = deck.Soundings.Where(s => s.Corners.Length >= 3).ToList();
        if (deck.HalfCells.IsDefaultOrEmpty && areas.Count == 0 && cores.Count == 0)
        {
            return null;
        }

        string Json(UnitSystem system)
        {
            double P(double m) => UnitScale.Position.To(m, system);
            var figure = new Figure();
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
                            symbol = "square",
                            size = 11,
                            color = deck.HalfCells.Select(h => h.PotentialMvCse).ToArray(),
                            colorscale = ChartPalette.MapScale,
                            colorbar = new
                            {
                                title = new { text = "mV CSE" },
                                thickness = 14,
                                outlinewidth = 0,
                            },
                            line = new { width = 0 },
                        }
                    ),
                    ("hovertemplate", "%{marker.color:.0f} mV<extra></extra>")
                );
            }

            Outlines(figure, deck, system);
            Cores(figure, deck, system);
            return Axes(figure, system).ToJson();
        }

        return new ReportChart(
            "The deck in plan",
            "More negative potentials speak for corrosion. Potentials are probabilities, not a finding: ASTM C876 takes more negative than −350 mV CSE as about 90 % corrosion, more positive than −200 mV as about 90 % none, for uncoated bars.",
            $"Plan of the deck with {deck.HalfCells.Length} half-cell nodes, {areas.Count} sounded areas and {cores.Count} cores.",
            360,
            Json(UnitSystem.Si),
            Json(UnitSystem.UsCustomary),
            Shares(deck)
        );
    }

    /// <summary>Adds the outlines of what sounding found.</summary>
    internal static void Outlines(Figure figure, Deck deck, UnitSystem system)
    {
        double P(double m) => UnitScale.Position.To(m, system);
        foreach (var (finding, colour, dash) in Findings)
        {
            var found = deck
                .Soundings.Where(a => a.Corners.Length >= 3 && a.Finding == finding)
                .ToList();
            if (found.Count > 0)
            {
                figure.Add(
                    "scatter",
                    (
                        "x",
                        found
                            .SelectMany(a =>
                                a.Corners.Append(a.Corners[0])
                                    .Select(c => (double?)P(c.X))
                                    .Append(null)
                            )
                            .ToArray()
                    ),
                    (
                        "y",
                        found
                            .SelectMany(a =>
                                a.Corners.Append(a.Corners[0])
                                    .Select(c => (double?)P(c.Y))
                                    .Append(null)
                            )
                            .ToArray()
                    ),
                    ("mode", "lines"),
                    (
                        "line",
                        new
                        {
                            color = colour,
                            width = 2,
                            dash,
                        }
                    ),
                    ("connectgaps", false),
                    ("hoverinfo", "name"),
                    ("name", Word(finding))
                );
            }
        }
    }

    /// <summary>Names the axes of a plan.</summary>
    internal static Figure Axes(Figure figure, UnitSystem system) =>
        figure.Layout(
            (
                "xaxis",
                Figure.Axis(
                    $"Along the deck [{UnitScale.Position.Unit(system)}]",
                    ("zeroline", false)
                )
            ),
            (
                "yaxis",
                Figure.Axis($"Across [{UnitScale.Position.Unit(system)}]", ("zeroline", false))
            )
        );

    /// <summary>Adds the places of the cores.</summary>
    internal static void Cores(Figure figure, Deck deck, UnitSystem system)
    {
        double P(double m) => UnitScale.Position.To(m, system);
        var cores = deck.Cores.Where(c => c.X is not null && c.Y is not null).ToList();
        if (cores.Count > 0)
        {
            figure.Add(
                "scatter",
                ("x", cores.Select(c => P(c.X!.Value)).ToArray()),
                ("y", cores.Select(c => P(c.Y!.Value)).ToArray()),
                ("mode", "markers+text"),
                ("text", cores.Select(c => HtmlEscape.ChartLabel(c.Core)).ToArray()),
                ("textposition", "top center"),
                ("textfont", new { size = 11 }),
                (
                    "marker",
                    new
                    {
                        symbol = "circle-open",
                        size = 12,
                        color = "#D55E00",
                        line = new { width = 2.5 },
                    }
                ),
                ("name", "core"),
                ("hoverinfo", "text")
            );
        }
    }

    private static readonly ImmutableArray<(
        SoundingFinding Finding,
        string Colour,
        string Dash
    )> Findings =
    [
        (SoundingFinding.Delaminated, "#D55E00", "solid"),
        (SoundingFinding.Spalled, "#CC79A7", "dash"),
        (SoundingFinding.Patched, "#8A8A8A", "dot"),
    ];

    private static string Word(SoundingFinding finding) =>
        finding switch
        {
            SoundingFinding.Delaminated => "delaminated",
            SoundingFinding.Spalled => "spalled",
            _ => "patched",
        };

    private static ReportTable Shares(Deck deck)
    {
        var nodes = deck.HalfCells.IsDefault ? [] : deck.HalfCells;
        (string Name, Func<double, bool> Holds)[] classes =
        [
            ("more negative than −350 mV CSE", p => p < -350),
            ("−350 to −200 mV CSE", p => p is >= -350 and <= -200),
            ("more positive than −200 mV CSE", p => p > -200),
        ];
        var rows = ImmutableArray.CreateBuilder<ImmutableArray<ReportCell>>();
        foreach (var (name, holds) in classes.Where(_ => nodes.Length > 0))
        {
            var count = nodes.Count(n => holds(n.PotentialMvCse));
            rows.Add([
                ReportCell.Words("Half-cell: " + name),
                ReportCell.Whole(count),
                ReportCell.Percent((double)count / nodes.Length),
                ReportCell.Missing(),
            ]);
        }

        foreach (var group in deck.Soundings.GroupBy(s => s.Finding).OrderBy(g => g.Key))
        {
            var area = group.Sum(s => s.AreaM2);
            rows.Add([
                ReportCell.Words("Sounding: " + Word(group.Key)),
                ReportCell.Whole(group.Count()),
                ReportCell.Percent(deck.AreaM2 > 0 ? area / deck.AreaM2 : null),
                ReportCell.Quantity(UnitScale.Area, area),
            ]);
        }

        return new(
            "What the surveys found",
            [
                new("Finding"),
                new("Nodes or areas", true),
                new("Share of the nodes, or of the deck area", true, IsShare: true),
                new("Area", true, UnitScale.Area),
            ],
            rows.ToImmutable()
        );
    }
}
