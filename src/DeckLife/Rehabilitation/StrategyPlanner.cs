using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Projection;

namespace DeckLife.Rehabilitation;

/// <summary>Turns strategies into plans, or refuses them with the reason.</summary>
internal sealed class StrategyPlanner
{
    /// <summary>Most classes of depth that a removal by content is let with.</summary>
    public const int MostDepthClasses = 3;

    /// <summary>Planned depths are rounded up to this [mm].</summary>
    public const double DepthStepMm = 5;

    /// <summary>Share of bars more than half exposed above which a strategy is refused for precast and post-tensioned decks.</summary>
    public const double MostExposedWithoutCheck = 0.01;

    /// <summary>Old concrete that has to be left [mm].</summary>
    public const double LeastRemainingMm = 10;

    private readonly Deck deck;
    private readonly AreaPoints centre;
    private readonly double background;
    private readonly ExposureClock clock;

    /// <summary>Prepares the planner.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="centre">Points of the deck in a central draw: depths are decided from it once, before anything is known better.</param>
    /// <param name="backgroundKgPerM3">Background of that draw [kg/m³].</param>
    /// <param name="clock">How diffusion adds up.</param>
    public StrategyPlanner(
        Deck deck,
        AreaPoints centre,
        double backgroundKgPerM3,
        ExposureClock clock
    )
    {
        this.deck = deck;
        this.centre = centre;
        background = backgroundKgPerM3;
        this.clock = clock;
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
            var step = PlanOne(strategy, intervention, out refusal);
            if (refusal is not null)
            {
                return null;
            }

            if (step is not null)
            {
                planned.Add(step);
            }
        }

        if (planned.Count > 1)
        {
            refusal = DiagnosticCatalogue.SeveralInterventions.With(strategy.Name, planned.Count);
            return null;
        }

        return new(strategy, planned.ToImmutable());
    }

    private PlannedIntervention? PlanOne(
        Strategy strategy,
        Intervention intervention,
        out Diagnostic? refusal
    )
    {
        refusal = null;
        var at = intervention.At.Years;
        var depths = intervention.Removal switch
        {
            null => [0],
            FixedDepthRemoval rule => [rule.Depth.Millimetres],
            ChlorideLimitRemoval rule => ClassDepths(rule, at),
            UnsoundAreaRemoval => [0],
            _ => ImmutableArray<double>.Empty,
        };
        if (depths.IsEmpty)
        {
            refusal = DiagnosticCatalogue.UnknownRemovalRule.With(
                strategy.Name,
                intervention.Removal!.GetType().Name
            );
            return null;
        }

        if (
            depths[^1] <= 0
            && intervention.Overlay is null
            && intervention.Removal is not UnsoundAreaRemoval
        )
        {
            return null;
        }

        if (at > deck.Horizon.Years)
        {
            refusal = DiagnosticCatalogue.InterventionBeyondHorizon.With(
                strategy.Name,
                at,
                deck.Horizon.Years
            );
            return null;
        }

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

        if (deck.Thickness.Millimetres - depths[^1] < LeastRemainingMm)
        {
            refusal = DiagnosticCatalogue.RemovalThroughDeck.With(
                strategy.Name,
                depths[^1],
                deck.Thickness.Millimetres
            );
            return null;
        }

        var step = new PlannedIntervention
        {
            AtYr = at,
            DepthsMm = depths,
            Limit = (intervention.Removal as ChlorideLimitRemoval)?.Limit,
            MaterialIndex = index,
            Material = index < 0 ? null : deck.Materials[index],
            ThicknessMm = intervention.Overlay?.Thickness.Millimetres ?? 0,
        };
        var exposed = ExposedShare(step);
        if (deck.Structure != StructureKind.CastInPlace && exposed > MostExposedWithoutCheck)
        {
            refusal = DiagnosticCatalogue.RemovalBelowTopBarsRefused.With(
                strategy.Name,
                deck.Structure == StructureKind.PostTensioned ? "post-tensioned" : "precast",
                100 * exposed
            );
            return null;
        }

        return step;
    }

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

    // Depths that half, four fifths and nineteen twentieths of the deck need, rounded up and kept within the rule.
    private ImmutableArray<double> ClassDepths(ChlorideLimitRemoval rule, double at)
    {
        var needed = new double[centre.Count];
        var years = clock.EffectiveYears(clock.ExposureAtSurveyYr + at);
        for (var i = 0; i < needed.Length; i++)
        {
            needed[i] = ResidualDepth.Above(
                centre.SurfaceChloride[i],
                background,
                2 * Math.Sqrt(centre.DiffusionMm2PerYr[i] * years),
                rule.Limit.KilogramsPerCubicMetre
            );
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

    private double ExposedShare(PlannedIntervention step)
    {
        var exposed = 0;
        var years = clock.EffectiveYears(clock.ExposureAtSurveyYr + step.AtYr);
        for (var i = 0; i < centre.Count; i++)
        {
            var depth = step.DepthsMm[^1];
            if (step.Limit is { } limit)
            {
                depth = step.DepthFor(
                    ResidualDepth.Above(
                        centre.SurfaceChloride[i],
                        background,
                        2 * Math.Sqrt(centre.DiffusionMm2PerYr[i] * years),
                        limit.KilogramsPerCubicMetre
                    )
                );
            }

            if (BarRule.IsUndercut(depth, centre.CoverMm[i], deck.TopBarDiameter.Millimetres))
            {
                exposed++;
            }
        }

        return (double)exposed / centre.Count;
    }
}
