using System.Collections.Immutable;
using DeckLife.Surveys;
using static System.FormattableString;

namespace DeckLife.Mapping;

/// <summary>Sums the map up by zone.</summary>
internal static class DeckZones
{
    // Judgement: the width that a gutter's salt and splash reach, and one step of a usual half-cell grid.
    private const double LeastEdgeM = 1.5;

    /// <summary>The zones of a deck: those stated, else the strips along both edges (where a gutter line would be) and what lies between.</summary>
    public static ImmutableArray<ZoneShare> Of(
        Deck deck,
        DeckGrid grid,
        ImmutableArray<DeckMapCell> cells
    )
    {
        var zones = deck.Zones;
        var edge = Math.Max(LeastEdgeM, grid.StepY);
        var plan = grid.Plan;
        if (zones.IsEmpty && plan.WidthM > 4 * edge)
        {
            var (low, high) = (plan.Low + edge, plan.High - edge);
            zones =
            [
                new(
                    Invariant($"edge strip, first {edge:F1} m across"),
                    plan.Left,
                    plan.Right,
                    plan.Low,
                    low
                ),
                new("between the edge strips", plan.Left, plan.Right, low, high),
                new(
                    Invariant($"edge strip, last {edge:F1} m across"),
                    plan.Left,
                    plan.Right,
                    high,
                    plan.High
                ),
            ];
        }

        var result = ImmutableArray.CreateBuilder<ZoneShare>();
        foreach (var zone in zones)
        {
            var mine = cells.Where(c => zone.Holds(c.X, c.Y)).ToArray();
            if (mine.Length == 0)
            {
                continue;
            }

            var covers = deck
                .Covers.Where(c => c.X is { } x && c.Y is { } y && zone.Holds(x, y))
                .ToArray();
            result.Add(
                new(
                    zone.Name,
                    (double)mine.Length / cells.Length,
                    mine.Sum(c => c.Nodes),
                    covers.Length == 0 ? null : covers.Average(c => c.Cover.Millimetres),
                    mine.Average(c => c.Active),
                    mine.Average(c => c.Damaged),
                    [.. mine[0].DamagedLater.Select((_, t) => mine.Average(c => c.DamagedLater[t]))]
                )
            );
        }

        return result.ToImmutable();
    }
}
