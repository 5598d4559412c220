using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Projection;

namespace DeckLife.Rehabilitation;

/// <summary>Turns strategies into plans, or refuses them with the reason.</summary>
internal sealed class StrategyPlanner
{
    /// <summary>Most classes of depth that a removal by content is let with; judgement: what a contract names and a foreman keeps apart.</summary>
    public const int MostDepthClasses = 3;

    /// <summary>Planned depths are rounded up to this [mm]; judgement: what removal is set out and held to on site.</summary>
    public const double DepthStepMm = 5;

    /// <summary>Share of bars more than half exposed above which a strategy is refused for precast and post-tensioned decks.</summary>
    /// <remarks>Judgement: not 0, since some bar always lies too high; a refusal, because exposing them is never to be assumed there.</remarks>
    public const double MostExposedWithoutCheck = 0.01;

    /// <summary>Old concrete that has to be left [mm].</summary>
    public const double LeastRemainingMm = 10;

    /// <summary>Most overlays a strategy is followed through: what the layered solver's sections hold, and more than one life of a deck asks for.</summary>
    public const int MostOverlays = 4;

    // Numerical choice: the layered solver is asked for these only. Depths are rounded up to 5 mm: with a quarter of the points those of the
    // demonstration deck are the same.
    private const int LadderPoints = 256;

    private readonly Deck deck;
    private readonly KnowledgeDraw draw;
    private readonly AreaPoints centre;
    private readonly AreaPoints ladder;
    private readonly ExposureClock clock;

    /// <summary>Prepares the planner.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="draw">The central draw: depths are decided from it once, before anything is known better.</param>
    /// <param name="centre">Points of the deck in that draw.</param>
    /// <param name="clock">How diffusion adds up.</param>
    public StrategyPlanner(Deck deck, KnowledgeDraw draw, AreaPoints centre, ExposureClock clock)
    {
        this.deck = deck;
        this.draw = draw;
        this.centre = centre;
        this.clock = clock;
        ladder = centre.Count <= LadderPoints ? centre : centre.First(LadderPoints);
    }

    /// <summary>Plans one strategy.</summary>
    /// <param name="strategy">The strategy.</param>
    /// <param name="refusal">Why it is refused; absent when it is not.</param>
    /// <returns>The plan, or nothing when it is refused.</returns>
    public StrategyPlan? Plan(Strategy strategy, out Diagnostic? refusal)
    {
        refusal = null;
        var planned = ImmutableArray.CreateBuilder<PlannedIntervention>();
        foreach (var intervention in strategy.Interventions.OrderBy(i => i.At.Years))
        {
            var step = PlanOne(strategy, intervention, planned, out refusal);
            if (refusal is not null)
            {
                return null;
            }

            if (step is not null)
            {
                planned.Add(step);
            }
        }

        refusal = Checked(strategy, planned);
        return refusal is null ? new(strategy, planned.ToImmutable()) : null;
    }

    private static Diagnostic? Checked(
        Strategy strategy,
        ImmutableArray<PlannedIntervention>.Builder planned
    )
    {
        var overlays = planned.Count(p => p.Material is not null);
        if (overlays > MostOverlays)
        {
            return DiagnosticCatalogue.ManyOverlays.With(strategy.Name, overlays, MostOverlays);
        }

        for (var n = 1; n < planned.Count; n++)
        {
            if (
                !planned[n].WhenOverlayEnds
                && !planned[n - 1].WhenOverlayEnds
                && planned[n].AtYr - planned[n - 1].AtYr < WorkSchedule.ShortestGapYr
            )
            {
                return DiagnosticCatalogue.InterventionsAtOneTime.With(
                    strategy.Name,
                    planned[n].AtYr
                );
            }
        }

        return null;
    }

    private PlannedIntervention? PlanOne(
        Strategy strategy,
        Intervention intervention,
        ImmutableArray<PlannedIntervention>.Builder before,
        out Diagnostic? refusal
    )
    {
        refusal = null;
        var at = intervention.At.Years;
        if (at > deck.Horizon.Years)
        {
            refusal = DiagnosticCatalogue.InterventionBeyondHorizon.With(
                strategy.Name,
                at,
                deck.Horizon.Years
            );
            return null;
        }

        if (intervention.WhenOverlayEnds && !before.Any(p => p.OwnLife is not null))
        {
            refusal = DiagnosticCatalogue.NoOverlayToEnd.With(strategy.Name);
            return null;
        }

        if (Placed(strategy, intervention, out refusal) is not { } step)
        {
            return null;
        }

        var schedule = Schedule(before, step);
        var ladderWorks = new WorkPlanner(
            deck,
            clock,
            new BatchedSectionSolver(),
            draw,
            ladder,
            Untreated(ladder)
        );
        ImmutableArray<double> depths;
        switch (intervention.Removal)
        {
            case null:
            case UnsoundAreaRemoval:
                depths = [0];
                break;
            case FixedDepthRemoval rule:
                depths = [rule.Depth.Millimetres];
                break;
            case HalfCellRemoval rule:
                depths = [rule.Elsewhere.Millimetres];
                break;
            case ChlorideLimitRemoval rule:
                depths = ClassDepths(rule, schedule, ladderWorks);
                break;
            default:
                refusal = DiagnosticCatalogue.UnknownRemovalRule.With(
                    strategy.Name,
                    intervention.Removal.GetType().Name
                );
                return null;
        }

        step = step with { DepthsMm = depths };
        if (
            !step.ChangesSection
            && intervention.Removal is not (UnsoundAreaRemoval or HalfCellRemoval)
        )
        {
            return null;
        }

        var nominal =
            deck.Thickness.Millimetres
            + (deck.ExistingOverlay?.Thickness.Millimetres ?? 0)
            - (deck.ExistingOverlay?.RemovedBefore?.Millimetres ?? 0)
            + before.Sum(p => (p.Material is null ? 0 : p.ThicknessMm) - p.DepthsMm[^1]);
        if (nominal - depths[^1] < LeastRemainingMm)
        {
            refusal = DiagnosticCatalogue.RemovalThroughDeck.With(
                strategy.Name,
                depths[^1],
                nominal
            );
            return null;
        }

        refusal =
            deck.Structure == StructureKind.CastInPlace ? null : Exposed(strategy, before, step);
        return refusal is null ? step : null;
    }

    // What goes on, not yet what comes off.
    private PlannedIntervention? Placed(
        Strategy strategy,
        Intervention intervention,
        out Diagnostic? refusal
    )
    {
        refusal = null;
        var index = -1;
        if (intervention.Overlay is { } overlay)
        {
            index = IndexOf(overlay.Material);
            if (index < 0)
            {
                refusal = DiagnosticCatalogue.UnknownMaterial.With(strategy.Name, overlay.Material);
                return null;
            }
        }

        SurfaceProtection? protection = null;
        if (intervention.Protection is { } thin)
        {
            protection = deck.Protections.FirstOrDefault(p => p.Name == thin.Material);
            if (protection is null)
            {
                refusal = DiagnosticCatalogue.UnknownMaterial.With(strategy.Name, thin.Material);
                return null;
            }
        }

        return new()
        {
            AtYr = intervention.At.Years,
            WhenOverlayEnds = intervention.WhenOverlayEnds,
            DepthsMm = [0],
            Limit = (intervention.Removal as ChlorideLimitRemoval)?.Limit,
            HalfCellLimitMv = (intervention.Removal as HalfCellRemoval)?.Limit.MillivoltsCse,
            MaterialIndex = index,
            Material = index < 0 ? null : deck.Materials[index],
            ThicknessMm = intervention.Overlay?.Thickness.Millimetres ?? 0,
            Protection = protection,
            ProtectionThicknessMm = intervention.Protection?.Thickness.Millimetres ?? 0,
            RepairsDamage =
                intervention.RepairsDamage
                ?? !(
                    intervention.Removal is null
                    && index < 0
                    && protection is { Kind: ProtectionKind.Sealer }
                ),
        };
    }

    // The interventions before and this one, with the dates of the central draw; what waits beyond the horizon is dated there.
    private List<ScheduledWork> Schedule(
        ImmutableArray<PlannedIntervention>.Builder before,
        PlannedIntervention step
    )
    {
        var all = before.Append(step).ToImmutableArray();
        var works = WorkSchedule
            .For(new(new() { Name = "" }, all), draw, deck.Horizon.Years)
            .Works.Where(w => w.Number < before.Count)
            .ToList();
        var own = step.WhenOverlayEnds
            ? Math.Max(
                step.AtYr,
                works
                    .Where(w => double.IsFinite(w.OwnEndYr))
                    .Select(w => w.OwnEndYr)
                    .DefaultIfEmpty(step.AtYr)
                    .Max()
            )
            : step.AtYr;
        works.RemoveAll(w => w.AtYr >= own);
        works.Add(new(before.Count, step, own, double.PositiveInfinity, double.PositiveInfinity));
        return works;
    }

    private UntreatedArea Untreated(AreaPoints points) =>
        new(points, draw.Population.Threshold, draw.Population.BackgroundKgPerM3, clock);

    private int IndexOf(string material)
    {
        for (var i = 0; i < deck.Materials.Length; i++)
        {
            if (deck.Materials[i].Name == material)
            {
                return i;
            }
        }

        return -1;
    }

    // Depths that half, four fifths and nineteen twentieths of the deck need, rounded up and kept within the rule. Judgement: the last leaves a
    // twentieth of the deck with more salt than the limit, which the projection then follows.
    private ImmutableArray<double> ClassDepths(
        ChlorideLimitRemoval rule,
        List<ScheduledWork> schedule,
        WorkPlanner onLadder
    )
    {
        var limit = rule.Limit.KilogramsPerCubicMetre;
        double[] needed;
        if (schedule.Take(schedule.Count - 1).Any(w => w.Intervention.ChangesSection))
        {
            var candidates = new List<double>();
            for (
                var depth = rule.MinimumDepth.Millimetres;
                depth < rule.MaximumDepth.Millimetres;
                depth += DepthStepMm
            )
            {
                candidates.Add(depth);
            }

            candidates.Add(rule.MaximumDepth.Millimetres);
            needed = onLadder.Needed(
                onLadder.Depths(schedule[..^1]),
                schedule[^1],
                limit,
                candidates
            );
        }
        else
        {
            needed = new WorkPlanner(
                deck,
                clock,
                new BatchedSectionSolver(),
                draw,
                centre,
                Untreated(centre)
            ).Needed([], schedule[^1], limit, []);
        }

        Array.Sort(needed);
        double[] shares = [0.5, 0.8, 0.95];
        return
        [
            .. shares
                .Select(share =>
                    Math.Clamp(
                        Math.Ceiling(Percentiles.At(needed, share) / DepthStepMm) * DepthStepMm,
                        rule.MinimumDepth.Millimetres,
                        rule.MaximumDepth.Millimetres
                    )
                )
                .Distinct()
                .Order()
                .Take(MostDepthClasses),
        ];
    }

    private Diagnostic? Exposed(
        Strategy strategy,
        ImmutableArray<PlannedIntervention>.Builder before,
        PlannedIntervention step
    )
    {
        // Without overlays before, all points of the centre serve; else those that the layered solver is asked for.
        var points = before.Any(p => p.ChangesSection) ? ladder : centre;
        var untreated = Untreated(points);
        var works = new WorkPlanner(
            deck,
            clock,
            new BatchedSectionSolver(),
            draw,
            points,
            untreated
        ).Depths(Schedule(before, step));
        var exposed = works[^1].IsUndercut.Count(u => u) / (double)points.Count;
        if (step.HalfCellLimitMv is { } limit)
        {
            // Removal by potential goes to under the bars. Bars that work before has kept passive are taken as active: more are exposed so.
            var active = untreated.InitiatedFraction(
                clock.ExposureAtSurveyYr + works[^1].Work.AtYr
            );
            exposed +=
                (1 - exposed)
                * (
                    active * deck.Surveys.ActiveShareBeyond(limit)
                    + (1 - active) * deck.Surveys.PassiveShareBeyond(limit)
                );
        }

        return exposed > MostExposedWithoutCheck
            ? DiagnosticCatalogue.RemovalBelowTopBarsRefused.With(
                strategy.Name,
                deck.Structure == StructureKind.PostTensioned ? "post-tensioned" : "precast",
                100 * exposed
            )
            : null;
    }
}
