using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Decisions;

/// <summary>Life, cost and grade over removal depth and overlay thickness, for each material, with the best case under the limits.</summary>
public sealed record DepthMap
{
    /// <summary>The deck.</summary>
    public required Deck Deck { get; init; }

    /// <summary>What was covered.</summary>
    public required DepthMapPlan Plan { get; init; }

    /// <summary>Every case: by material, then thickness, then removal depth.</summary>
    public required ImmutableArray<DepthMapCell> Cells { get; init; }

    /// <summary>The deck's own strategies on the map: scarifying alone, removal to a chloride limit, and whatever else places an overlay.</summary>
    public ImmutableArray<DepthMapCell> Points { get; init; } = [];

    /// <summary>The best case; absent where none keeps the limits.</summary>
    public DepthChoice? Choice { get; init; }

    /// <summary>What the reader should know.</summary>
    public ImmutableArray<string> Notes { get; init; } = [];

    /// <summary>The sweep behind the map.</summary>
    public required StrategyExploration Exploration { get; init; }

    /// <summary>The case of a material, thickness and removal.</summary>
    /// <param name="material">Place of the material in the plan.</param>
    /// <param name="thickness">Place of the thickness.</param>
    /// <param name="removal">Place of the removal depth.</param>
    public DepthMapCell At(int material, int thickness, int removal) =>
        Cells[
            (((material * Plan.Thicknesses.Length) + thickness) * Plan.RemovalDepths.Length)
                + removal
        ];

    /// <summary>What the best case brings against a strategy of the deck; nothing without a best case, or without draws of the strategy.</summary>
    /// <param name="projection">The projection of the deck's own strategies, for one that the map does not show since it places no overlay.</param>
    /// <param name="strategy">Name of the strategy.</param>
    public DepthAdvantage? AdvantageOver(DeckProjection projection, string strategy)
    {
        ArgumentNullException.ThrowIfNull(projection);
        var onMap = Points.FirstOrDefault(p => p.Name == strategy)?.Outcomes;
        if (
            Choice?.Best.Outcomes is not { } best
            || (onMap ?? projection.Draws?.Of(strategy)) is not { } other
        )
        {
            return null;
        }

        // Case and point share their draws, so the differences are paired; a strategy off the map has draws of its own.
        PairedMean Difference(IReadOnlyList<double> more, IReadOnlyList<double> less) =>
            onMap is null ? PairedMean.Independent(more, less) : PairedMean.Difference(more, less);
        double[] Years(StrategyOutcomes outcomes) =>
            [.. outcomes.LivesYr.Select(l => Math.Min(l, Deck.Horizon.Years))];
        var years = Difference(Years(best), Years(other));
        var saved = Deck.Prices is { PricesTheEnd: true }
            ? Difference(other.PresentValues, best.PresentValues)
            : (PairedMean?)null;
        return new(saved?.Mean, saved?.Error, years.Mean, years.Error);
    }

    /// <summary>The map that a projection's own deck asks for; nothing where no strategy places an overlay.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="draws">Draws of what is not known, for each case.</param>
    /// <param name="cancellation">Ends it early.</param>
    public static DepthMap? Of(
        DeckProjection projection,
        int draws = 200,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(projection);
        return DepthMapPlan.For(projection.Deck) is { } plan
            ? Compute(projection.Deck, projection.Fit, plan with { Draws = draws }, cancellation)
            : null;
    }

    /// <summary>Computes the map; all cases share the same draws, so that differences between them are not chance.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="fit">What its cores say.</param>
    /// <param name="plan">What to cover.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <exception cref="ArgumentException">The plan covers nothing.</exception>
    /// <exception cref="ProjectionRefusedException">The deck can't be projected.</exception>
    public static DepthMap Compute(
        Deck deck,
        DeckFit fit,
        DepthMapPlan plan,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(deck);
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.RemovalDepths.IsEmpty || plan.Thicknesses.IsEmpty || plan.Materials.IsEmpty)
        {
            throw new ArgumentException(
                "A map needs at least one removal depth, one thickness and one material.",
                nameof(plan)
            );
        }

        var exploration = StrategyExploration.Compute(deck, fit, plan.Sweep(), cancellation);
        var judge = new LimitJudge(deck, DeckProjector.CheckedCover(deck), plan.Limits);
        var draws = exploration.Projections[0].Draws;
        var cells = exploration
            .Cases.Select(c =>
            {
                var overlay = exploration.Plan.Overlays[c.Overlay];
                return judge.Judge(
                    new()
                    {
                        Material = overlay.Material,
                        Removal = plan.RemovalDepths[c.Removal],
                        Thickness = overlay.Thickness,
                        Projection = c.Projection,
                        Outcomes = c.Projection is { } p ? draws?.Of(p.Strategy.Name) : null,
                        Refusal = c.Refusal,
                    }
                );
            })
            .ToImmutableArray();
        var points = plan
            .Points.Select(s => judge.Judge(Point(s, exploration.Projections[0])))
            .ToImmutableArray();
        return new()
        {
            Deck = deck,
            Plan = plan,
            Cells = cells,
            Points = points,
            Choice = DepthChooser.Choose(deck, cells),
            Notes = Remarks(deck, plan, cells),
            Exploration = exploration,
        };
    }

    private static DepthMapCell Point(Strategy strategy, DeckProjection projection)
    {
        var projected = projection.Strategies.FirstOrDefault(s => s.Strategy == strategy);
        var place = strategy.Interventions.ToList().FindIndex(i => i.Overlay is not null);
        var intervention = strategy.Interventions[place];
        var mean = projected is { Interventions.IsEmpty: false } p
            ? p.Interventions[Math.Min(place, p.Interventions.Length - 1)].MeanRemovalMm.P50
            : (intervention.Removal as FixedDepthRemoval)?.Depth.Millimetres ?? 0;
        return new()
        {
            Name = strategy.Name,
            Material = intervention.Overlay!.Material,
            Removal = intervention.Removal is FixedDepthRemoval fixedDepth
                ? fixedDepth.Depth
                : Depth.FromMillimetres(mean),
            Thickness = intervention.Overlay.Thickness,
            Projection = projected,
            Outcomes = projection.Draws?.Of(strategy.Name),
            Refusal = projection
                .Refused.FirstOrDefault(r => r.Strategy.Name == strategy.Name)
                ?.Reason,
        };
    }

    private static ImmutableArray<string> Remarks(
        Deck deck,
        DepthMapPlan plan,
        ImmutableArray<DepthMapCell> cells
    )
    {
        var notes = ImmutableArray.CreateBuilder<string>();
        notes.Add(
            FormattableString.Invariant(
                $"Each case rests on {plan.Draws} draws of {plan.AreaPoints} points, the same for all: coarser than the strategies' own curves."
            )
        );
        if (deck.Structure != StructureKind.CastInPlace)
        {
            notes.Add(
                $"Removal below the top bars is refused: the deck is {(deck.Structure == StructureKind.Precast ? "precast" : "post-tensioned")}."
            );
        }

        if (plan.Limits == new DepthLimits())
        {
            notes.Add(
                "No limit on grade, dead load, bar clearance, budget, remaining thickness or exposed bars is stated: the best case may pass any of them."
            );
        }

        if (!plan.Points.Any(s => s.Interventions.Any(i => i.Removal is ChlorideLimitRemoval)))
        {
            notes.Add("No strategy removes to a chloride limit, so that point is not on the map.");
        }

        var refused = cells.Count(c => c.Refusal is not null);
        if (refused > 0)
        {
            notes.Add(
                FormattableString.Invariant(
                    $"{refused} of {cells.Length} cases are refused; each case says why."
                )
            );
        }

        return notes.ToImmutable();
    }
}
