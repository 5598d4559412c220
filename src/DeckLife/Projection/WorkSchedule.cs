using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>Dates of a plan's interventions in one draw: the fixed ones, and those that wait for an overlay to end.</summary>
internal sealed class WorkSchedule
{
    /// <summary>Shortest time between two interventions [yr].</summary>
    public const double ShortestGapYr = 1e-3;

    private WorkSchedule(ScheduledWork[] works, double coverEndYr)
    {
        Works = works;
        CoverEndYr = coverEndYr;
    }

    /// <summary>What is done within the horizon, by date.</summary>
    public ScheduledWork[] Works { get; }

    /// <summary>When an overlay ends by itself without being replaced by then [yr]; infinite where none does.</summary>
    public double CoverEndYr { get; }

    /// <summary>Puts the dates together.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="draw">What is not known: how long overlays last.</param>
    /// <param name="horizonYr">Horizon [yr].</param>
    public static WorkSchedule For(StrategyPlan plan, KnowledgeDraw draw, double horizonYr)
    {
        var works = new List<ScheduledWork>();
        var placed = new Dictionary<string, int>();
        var waiting = new Queue<int>();
        var dated = new Queue<int>();
        for (var n = 0; n < plan.Interventions.Length; n++)
        {
            (plan.Interventions[n].WhenOverlayEnds ? waiting : dated).Enqueue(n);
        }

        var inPlaceEnd = double.PositiveInfinity;
        var coverEnd = double.PositiveInfinity;
        var last = double.NegativeInfinity;
        while (true)
        {
            var fixedAt = dated.TryPeek(out var d)
                ? plan.Interventions[d].AtYr
                : double.PositiveInfinity;
            var endAt = waiting.TryPeek(out var w)
                ? Math.Max(plan.Interventions[w].AtYr, inPlaceEnd)
                : double.PositiveInfinity;
            var at = Math.Max(Math.Min(fixedAt, endAt), last + ShortestGapYr);
            if (!(at <= horizonYr))
            {
                break;
            }

            var number = endAt <= fixedAt ? waiting.Dequeue() : dated.Dequeue();
            var step = plan.Interventions[number];
            double Life(UncertainValue? life, string? name, int index) =>
                life is { } value
                    ? at + OwnLife(value, draw, name!, index, placed)
                    : double.PositiveInfinity;
            var protectionEnd = Life(step.Protection?.ServiceLife, step.Protection?.Name, -1);
            var end = step.Protection is { Kind: ProtectionKind.Barrier }
                ? protectionEnd
                : Life(step.Material?.ServiceLife, step.Material?.Name, step.MaterialIndex);
            if (step.Covers)
            {
                // Replaced at its end or before: the end is then none.
                coverEnd =
                    inPlaceEnd < at - 2 * ShortestGapYr ? Math.Min(coverEnd, inPlaceEnd) : coverEnd;
                inPlaceEnd = end;
            }

            works.Add(
                new(number, step, at, step.Covers ? end : double.PositiveInfinity, protectionEnd)
            );
            last = at;
        }

        return new([.. works], Math.Min(coverEnd, inPlaceEnd));
    }

    private static double OwnLife(
        UncertainValue life,
        KnowledgeDraw draw,
        string name,
        int index,
        Dictionary<string, int> placed
    )
    {
        var occurrence = placed.GetValueOrDefault(name);
        placed[name] = occurrence + 1;
        return PointDistribution
            .WithinDeck(life, 0, NormalQuantile.At(draw.LifeUniform(name, index, occurrence)))
            .Quantile(0.5);
    }
}
