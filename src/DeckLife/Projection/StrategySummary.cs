using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Rehabilitation;
using DeckLife.Surveys;

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
        var patched = PatchedToday(deck);
        var curve = ImmutableArray.CreateBuilder<CurvePoint>(grid.Yearly.Length);
        foreach (var j in grid.Yearly)
        {
            curve.Add(
                new(
                    grid.TimesYr[j],
                    Band(draws, d => d.Damaged[j]),
                    Band(draws, d => WithPatches(plan, grid, d, j, patched)),
                    Band(draws, d => d.Initiated[j])
                )
            );
        }

        var percent = (100 * deck.DamageLimit).ToString("0.###", CultureInfo.InvariantCulture);
        var criterion = $"{percent} % of the deck area damaged";
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
            Curve = curve.MoveToImmutable(),
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

    /// <summary>The share of the deck that was patched at the survey.</summary>
    private static double PatchedToday(Deck deck) =>
        Math.Clamp(
            deck.Soundings.Where(a => a.Finding == SoundingFinding.Patched).Sum(a => a.AreaM2)
                / deck.AreaM2,
            0,
            1
        );

    private static double WithPatches(
        StrategyPlan plan,
        TimeGrid grid,
        StrategyDraw draw,
        int j,
        double patchedToday
    )
    {
        var patches = patchedToday;
        if (grid.IsAfter[j])
        {
            // A full-width overlay starts the count again; removal without one leaves its repairs as patches.
            patches = plan.Interventions[0].Material is not null
                ? 0
                : patchedToday + (1 - patchedToday) * draw.Intervention!.Repaired;
        }

        return draw.Damaged[j] + (1 - draw.Damaged[j]) * patches;
    }

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
