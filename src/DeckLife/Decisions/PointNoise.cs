using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Rehabilitation;

namespace DeckLife.Decisions;

/// <summary>What the finite number of points a draw does to lives and costs: the first draws of a projection, followed again with other points.</summary>
internal sealed class PointNoise
{
    private const int MostDraws = 64;
    private const int FewestDraws = 4;
    private const ulong OtherPoints = 0x9E3779B97F4A7C15;

    private readonly double horizonYr;
    private readonly double[][] lives;
    private readonly ImmutableArray<double>[] presentValues;

    private PointNoise(double horizonYr, double[][] lives, ImmutableArray<double>[] presentValues)
    {
        this.horizonYr = horizonYr;
        this.lives = lives;
        this.presentValues = presentValues;
    }

    /// <summary>Follows an eighth of the draws again, at most 64; nothing where that is fewer than 4.</summary>
    public static PointNoise? Measure(
        Deck deck,
        StrategyPlan[] plans,
        ExposureClock clock,
        ISectionSolver solver,
        KnowledgeSampler sampler,
        ImmutableArray<int> used,
        CancellationToken cancellation
    )
    {
        using var phase = PhaseTrace.Begin("noise of the points");
        var count = Math.Min(MostDraws, used.Length / 8);
        if (count < FewestDraws)
        {
            return null;
        }

        var other = deck with
        {
            Analysis = deck.Analysis with { Seed = deck.Analysis.Seed ^ OtherPoints },
        };
        var results = new ProjectionRun(other, clock, solver, sampler, null, cancellation).Follow(
            plans,
            used[..count]
        );
        // The deck's own seed: the same prices.
        var costs = new StrategyCosts(deck, plans, count);
        var lives = new double[plans.Length][];
        for (var s = 0; s < plans.Length; s++)
        {
            lives[s] = new StrategyLives(deck, results[s]).First;
            costs.Add(s, results[s], lives[s]);
        }

        return new(deck.Horizon.Years, lives, [.. plans.Select((_, s) => costs.PresentValues(s))]);
    }

    /// <summary>Variance of the years to the end, those beyond the horizon counted as the horizon [yr²].</summary>
    public double OfYears(int strategy, IReadOnlyList<double> first) =>
        Half(
            [.. lives[strategy].Select(l => Math.Min(l, horizonYr))],
            [.. first.Select(l => Math.Min(l, horizonYr))]
        );

    /// <summary>Variance of the present value; absent without prices.</summary>
    public double? OfPresentValues(int strategy, ImmutableArray<double> first) =>
        first.IsEmpty ? null : Half(presentValues[strategy], first);

    // Two runs differ by twice the variance of one.
    private static double Half(IReadOnlyList<double> second, IReadOnlyList<double> first) =>
        second.Select((v, k) => (v - first[k]) * (v - first[k])).Average() / 2;
}
