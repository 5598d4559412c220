using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>The deck under many removals and overlays, computed beforehand for a reader to look through.</summary>
public sealed record StrategyExploration
{
    private StrategyExploration(
        Deck deck,
        ExplorationPlan plan,
        ImmutableArray<ExplorationCase> cases,
        ImmutableArray<DeckProjection> projections
    )
    {
        Deck = deck;
        Plan = plan;
        Cases = cases;
        Projections = projections;
    }

    /// <summary>The deck.</summary>
    public Deck Deck { get; }

    /// <summary>What was varied.</summary>
    public ExplorationPlan Plan { get; }

    /// <summary>Every case, by threshold, then overlay, then removal.</summary>
    public ImmutableArray<ExplorationCase> Cases { get; }

    /// <summary>The whole projection under each threshold, with its draws and the plan's further strategies.</summary>
    public ImmutableArray<DeckProjection> Projections { get; }

    /// <summary>Projects every case. The same draws serve all cases of one threshold, so that differences between them are not chance.</summary>
    /// <param name="deck">The deck; its own strategies are not looked at.</param>
    /// <param name="fit">The fit of the deck.</param>
    /// <param name="plan">What to vary.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <exception cref="ArgumentOutOfRangeException">A factor on the threshold is outside (0, 10].</exception>
    /// <exception cref="ProjectionRefusedException">The deck can't be projected.</exception>
    public static StrategyExploration Compute(
        Deck deck,
        DeckFit fit,
        ExplorationPlan plan,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(deck);
        ArgumentNullException.ThrowIfNull(plan);
        using var phase = PhaseTrace.Begin("exploration");
        var cases = ImmutableArray.CreateBuilder<ExplorationCase>();
        var projections = ImmutableArray.CreateBuilder<DeckProjection>();
        // A threshold moves no salt: one set of tables serves all of them.
        ISectionSolver? solver = null;
        for (var t = 0; t < plan.ThresholdFactors.Length; t++)
        {
            var factor = plan.ThresholdFactors[t];
            if (!(factor is > 0 and <= 10))
            {
                throw new ArgumentOutOfRangeException(
                    nameof(plan),
                    factor,
                    "A factor on the threshold must be above 0 and at most 10."
                );
            }

            var content = deck.Threshold.Content;
            var varied = deck with
            {
                Strategies = [.. Strategies(plan), .. plan.Others],
                Threshold = deck.Threshold with
                {
                    Content = content with { Mean = content.Mean * factor },
                },
                Analysis = deck.Analysis with { Draws = plan.Draws, Points = plan.Points },
            };
            solver ??= DeckProjector.SolverFor(varied, fit, DeckProjector.CheckedCover(varied));
            var projection = DeckProjector.ProjectWithoutRecord(varied, fit, cancellation, solver);
            projections.Add(projection);
            Collect(plan, t, projection, cases);
        }

        return new(deck, plan, cases.ToImmutable(), projections.ToImmutable());
    }

    private static void Collect(
        ExplorationPlan plan,
        int threshold,
        DeckProjection projection,
        ImmutableArray<ExplorationCase>.Builder cases
    )
    {
        for (var o = 0; o < plan.Overlays.Length; o++)
        {
            for (var r = 0; r < plan.RemovalDepths.Length; r++)
            {
                var name = Name(r, o);
                cases.Add(
                    new(
                        r,
                        o,
                        threshold,
                        projection.Strategies.FirstOrDefault(s => s.Strategy.Name == name),
                        projection.Refused.FirstOrDefault(s => s.Strategy.Name == name)?.Reason
                    )
                );
            }
        }
    }

    private static ImmutableArray<Strategy> Strategies(ExplorationPlan plan) =>
        [
            .. plan.Overlays.SelectMany(
                (overlay, o) =>
                    plan.RemovalDepths.Select(
                        (depth, r) =>
                            new Strategy
                            {
                                Name = Name(r, o),
                                Interventions =
                                [
                                    new()
                                    {
                                        At = plan.At,
                                        Removal = new FixedDepthRemoval(depth),
                                        Overlay = overlay,
                                    },
                                ],
                            }
                    )
            ),
        ];

    private static string Name(int removal, int overlay) =>
        string.Create(CultureInfo.InvariantCulture, $"removal {removal}, overlay {overlay}");
}
