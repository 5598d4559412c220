using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Rehabilitation;

namespace DeckLife.Decisions;

/// <summary>What a projection's own arithmetic does to lives and costs: its first draws, followed again in another way.</summary>
/// <remarks>
/// How many draws are followed again is a numerical choice: a variance from 64 of them is known to about a sixth (√(2/63)), which is enough for a
/// share that is a few per cent; following all again would double the time.
/// </remarks>
internal sealed class NumericalNoise
{
    private const int MostDraws = 64;
    private const int FewestDraws = 4;
    private const ulong OtherPoints = 0x9E3779B97F4A7C15;

    // A finer solve costs several times a plain one.
    private const int MostFineDraws = 16;

    private readonly double horizonYr;
    private readonly double[][] lives;
    private readonly ImmutableArray<double>[] presentValues;
    private readonly double counted;

    private NumericalNoise(
        double horizonYr,
        double[][] lives,
        ImmutableArray<double>[] presentValues,
        double counted
    )
    {
        this.horizonYr = horizonYr;
        this.lives = lives;
        this.presentValues = presentValues;
        this.counted = counted;
    }

    /// <summary>The finite number of points: an eighth of the draws with other points, at most 64; nothing where that is fewer than 4.</summary>
    public static NumericalNoise? OfPoints(
        Deck deck,
        StrategyPlan[] plans,
        ExposureClock clock,
        ISectionSolver solver,
        KnowledgeSampler sampler,
        ImmutableArray<int> used,
        CancellationToken cancellation
    )
    {
        var count = Math.Min(MostDraws, used.Length / 8);
        var other = deck with
        {
            Analysis = deck.Analysis with { Seed = deck.Analysis.Seed ^ OtherPoints },
        };
        // Two runs differ by twice the variance of one.
        return count < FewestDraws
            ? null
            : Of(
                deck,
                plans,
                new ProjectionRun(other, clock, solver, sampler, null, cancellation),
                used[..count],
                0.5
            );
    }

    /// <summary>
    /// The steps of the layered solver, the tables that serve for it, and the times between which contents are read: an eighth of the draws by the finer
    /// solver and at twice the times, at most 16; nothing where that is fewer than 4, or there is no finer solver.
    /// </summary>
    public static NumericalNoise? OfSolver(
        Deck deck,
        StrategyPlan[] plans,
        ExposureClock clock,
        ISectionSolver solver,
        KnowledgeSampler sampler,
        ImmutableArray<int> used,
        CancellationToken cancellation
    )
    {
        var count = Math.Min(MostFineDraws, used.Length / 8);
        // What the finer run misses itself is small beside the difference: all of it counts.
        return count < FewestDraws || solver.Finer is not { } finer
            ? null
            : Of(
                deck,
                plans,
                new ProjectionRun(deck, clock, finer, sampler, null, cancellation)
                {
                    Steps = 2 * ProjectionRun.SolverSteps,
                },
                used[..count],
                1
            );
    }

    /// <summary>Variance of the years to the end, those beyond the horizon counted as the horizon [yr²].</summary>
    public double OfYears(int strategy, IReadOnlyList<double> first) =>
        MeanSquare(
            [.. lives[strategy].Select(l => Math.Min(l, horizonYr))],
            [.. first.Select(l => Math.Min(l, horizonYr))]
        );

    /// <summary>Variance of the present value; absent without prices.</summary>
    public double? OfPresentValues(int strategy, ImmutableArray<double> first) =>
        first.IsEmpty ? null : MeanSquare(presentValues[strategy], first);

    private static NumericalNoise Of(
        Deck deck,
        StrategyPlan[] plans,
        ProjectionRun run,
        ImmutableArray<int> draws,
        double counted
    )
    {
        using var phase = PhaseTrace.Begin("noise of the arithmetic");
        var results = run.Follow(plans, draws);
        // The deck's own seed: the same prices.
        var costs = new StrategyCosts(deck, plans, draws.Length);
        var lives = new double[plans.Length][];
        for (var s = 0; s < plans.Length; s++)
        {
            lives[s] = new StrategyLives(deck, results[s]).First;
            costs.Add(s, results[s], lives[s]);
        }

        return new(
            deck.Horizon.Years,
            lives,
            [.. plans.Select((_, s) => costs.PresentValues(s))],
            counted
        );
    }

    private double MeanSquare(IReadOnlyList<double> again, IReadOnlyList<double> first) =>
        counted * again.Select((v, k) => (v - first[k]) * (v - first[k])).Average();
}
