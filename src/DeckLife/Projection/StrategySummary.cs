using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>Draws of one strategy to bands.</summary>
internal static class StrategySummary
{
    private const double StandardGravity = 9.80665;

    /// <summary>Sums up one strategy.</summary>
    public static StrategyProjection Make(
        Deck deck,
        StrategyPlan plan,
        TimeGrid grid,
        StrategyDraw[] draws,
        StrategyLives lives
    )
    {
        var percent = (100 * deck.DamageLimit).ToString("0.###", CultureInfo.InvariantCulture);
        var criterion =
            $"{percent} % of the deck area damaged{(deck.DamageLimitCountsPatches ? " or patched" : "")}";
        var overlayEnds = plan.Interventions.Any(i => i.Material?.ServiceLife is not null);
        var beneath = Percentiles.Life(criterion, [.. lives.Deck]);
        return new()
        {
            Strategy = plan.Strategy,
            ServiceLife = overlayEnds
                ? Percentiles.Life(
                    $"{criterion}, or the overlay at the end of its own life",
                    [.. lives.First]
                )
                : beneath,
            DeckBeneath = beneath,
            OverlayEnd = overlayEnds
                ? Percentiles.Life("the overlay at the end of its own life", [.. lives.Overlay])
                : null,
            Curve = Curve(grid, draws),
            MedianRemovalDepthMm =
            [
                .. plan.Interventions.Select(_ =>
                    Band(draws, d => d.Intervention!.MeanRemovalMm).P50
                ),
            ],
            Interventions =
            [
                .. plan.Interventions.Select(intervention => Quantities(deck, intervention, draws)),
            ],
            Flags = Flags(plan, draws),
        };
    }

    /// <summary>Condition against time.</summary>
    public static ImmutableArray<CurvePoint> Curve(TimeGrid grid, StrategyDraw[] draws) =>
        [
            .. grid.Yearly.Select(j => new CurvePoint(
                grid.TimesYr[j],
                Band(draws, d => d.Damaged[j]),
                Band(draws, d => d.DamagedOrPatched[j]),
                Band(draws, d => d.Initiated[j])
            )),
        ];

    private static InterventionQuantities Quantities(
        Deck deck,
        PlannedIntervention intervention,
        StrategyDraw[] draws
    )
    {
        var removal = Band(draws, d => d.Intervention!.MeanRemovalMm);
        var placed = Band(draws, d => d.Intervention!.MeanPlacedMm);
        return new()
        {
            AtYr = intervention.AtYr,
            DepthClasses =
            [
                .. intervention.DepthsMm.Select(
                    (depth, c) =>
                        new DepthClass(depth, Band(draws, d => d.Intervention!.ClassShares[c]).P50)
                ),
            ],
            MeanRemovalMm = removal,
            RepairedFraction = Band(draws, d => d.Intervention!.Repaired),
            UndercutFraction = Band(draws, d => d.Intervention!.Undercut),
            StruckFraction = Band(draws, d => d.Intervention!.Struck),
            GradeRiseMm = intervention.ThicknessMm - intervention.LeastDepthMm,
            AddedDeadLoadKnPerM2 =
                intervention.Material?.DensityKgPerM3 is { } density
                && deck.ConcreteDensityKgPerM3 is { } old
                    ? (placed.P50 * density - removal.P50 * old) * StandardGravity / 1e6
                    : null,
        };
    }

    private static ImmutableArray<Diagnostic> Flags(StrategyPlan plan, StrategyDraw[] draws)
    {
        var flags = ImmutableArray.CreateBuilder<Diagnostic>();
        foreach (var intervention in plan.Interventions)
        {
            var exposed = Band(draws, d => d.Intervention!.Undercut + d.Intervention.Repaired).P50;
            if (exposed >= 0.0005)
            {
                flags.Add(DiagnosticCatalogue.RemovalBelowTopBars.With(100 * exposed));
            }

            if (intervention.Material is null)
            {
                flags.Add(DiagnosticCatalogue.HaloNotCounted.With());
            }

            var above = Band(draws, d => d.Intervention!.AboveLimit).P50;
            if (intervention.Limit is not null && above > 0.005)
            {
                flags.Add(
                    DiagnosticCatalogue.LimitNotReached.With(100 * above, intervention.DepthsMm[^1])
                );
            }
        }

        return flags.ToImmutable();
    }

    private static PercentileBand Band(StrategyDraw[] draws, Func<StrategyDraw, double> value) =>
        Percentiles.Band([.. draws.Select(value)]);
}
