using System.Collections.Immutable;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>Counts of the cover survey in classes of depth.</summary>
public static class CoverChart
{
    /// <summary>Draws the chart; nothing where there is no cover survey.</summary>
    /// <param name="deck">The deck.</param>
    public static ReportChart? Draw(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        if (deck.Covers.IsDefaultOrEmpty)
        {
            return null;
        }

        var si = Classes(deck, UnitSystem.Si);
        var us = Classes(deck, UnitSystem.UsCustomary);
        return new ReportChart(
            "Cover survey",
            $"{deck.Covers.Length} readings of the concrete over the top bars.",
            Alternative(deck, UnitSystem.Si),
            300,
            Json(si, UnitSystem.Si),
            Json(us, UnitSystem.UsCustomary),
            Numbers(si, UnitSystem.Si)
        )
        {
            AlternativeTextUs = Alternative(deck, UnitSystem.UsCustomary),
            NumbersUs = Numbers(us, UnitSystem.UsCustomary),
        };
    }

    // Classes of 5 mm and of 0.2 in: round numbers in both systems.
    private static double Width(UnitSystem system) => system == UnitSystem.Si ? 5 : 0.2;

    private static string Alternative(Deck deck, UnitSystem system)
    {
        string Text(double mm) => QuantityHtml.Text(UnitScale.Depth, mm, system);
        return $"Counts of {deck.Covers.Length} cover readings in classes of {NumberNotation.Trimmed(Width(system))}\u00A0{UnitScale.Depth.Unit(system)}, from {Text(deck.Covers.Min(c => c.Cover.Millimetres))} to {Text(deck.Covers.Max(c => c.Cover.Millimetres))}.";
    }

    private static ReportTable Numbers(List<(double From, int Count)> classes, UnitSystem system)
    {
        var unit = UnitScale.Depth.Unit(system);
        return new(
            "Cover readings by class",
            [
                new("From", true, FixedUnit: unit),
                new("To", true, FixedUnit: unit),
                new("Readings", true),
            ],
            [
                .. classes.Select(c =>
                    ImmutableArray.Create(
                        ReportCell.Number(c.From),
                        ReportCell.Number(c.From + Width(system)),
                        ReportCell.Whole(c.Count)
                    )
                ),
            ]
        );
    }

    private static List<(double From, int Count)> Classes(Deck deck, UnitSystem system)
    {
        var width = Width(system);
        var counts = deck
            .Covers.GroupBy(c =>
                // The small shift keeps a reading of a round number in the class that it opens.
                (int)Math.Floor((UnitScale.Depth.To(c.Cover.Millimetres, system) / width) + 1e-9)
            )
            .ToDictionary(g => g.Key, g => g.Count());
        var first = counts.Keys.Min();
        var last = counts.Keys.Max();
        return last - first > 400
            ? [.. counts.OrderBy(c => c.Key).Select(c => (c.Key * width, c.Value))]
            :
            [
                .. Enumerable
                    .Range(first, last - first + 1)
                    .Select(k => (k * width, counts.GetValueOrDefault(k))),
            ];
    }

    private static string Json(List<(double From, int Count)> classes, UnitSystem system)
    {
        var width = Width(system);
        return new Figure()
            .Add(
                "bar",
                ("x", classes.Select(c => c.From + (width / 2)).ToArray()),
                ("y", classes.Select(c => (double)c.Count).ToArray()),
                ("width", width * 0.92),
                ("marker", new { color = ChartPalette.Measured }),
                ("hovertemplate", "%{x:.3~r}: %{y}<extra></extra>")
            )
            .Layout(
                ("xaxis", Figure.Axis($"Cover [{UnitScale.Depth.Unit(system)}]")),
                ("yaxis", Figure.Axis("Readings")),
                ("showlegend", false),
                (
                    "margin",
                    new
                    {
                        l = 52,
                        r = 12,
                        t = 8,
                        b = 48,
                    }
                )
            )
            .ToJson();
    }
}
