using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>Draws of one strategy to bands.</summary>
internal static class StrategySummary
{
    private const double StandardGravity = 9.80665;

    /// <summary>Share of the bars below which none counts as exposed: rounding of a share of points.</summary>
    private const double LeastExposed = 0.0005;

    /// <summary>Sums up one strategy.</summary>
    public static StrategyProjection Make(
        Deck deck,
        StrategyPlan plan,
        StrategyDraw[] draws,
        StrategyLives lives
    )
    {
        var criterion = Criterion(deck);
        var overlayEnds = plan.Interventions.Any(i => i.OwnLife is not null);
        var beneath = Beneath(deck, lives);
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
            Curve = Curve(draws),
            MedianRemovalDepthMm =
            [
                .. plan.Interventions.Select((_, n) => Band(draws, n, d => d.MeanRemovalMm).P50),
            ],
            Interventions =
            [
                .. plan.Interventions.Select((_, n) => Quantities(deck, plan, n, draws)),
            ],
            Flags = Flags(deck, plan, draws),
        };
    }

    /// <summary>When the deck beneath reaches its limit.</summary>
    public static ServiceLife Beneath(Deck deck, StrategyLives lives) =>
        Percentiles.Life(Criterion(deck), [.. lives.Deck]);

    private static string Criterion(Deck deck)
    {
        var percent = (100 * deck.DamageLimit).ToString("0.###", CultureInfo.InvariantCulture);
        return $"{percent} % of the deck area damaged{(deck.DamageLimitCountsPatches ? " or patched" : "")}";
    }

    /// <summary>Condition against time.</summary>
    public static ImmutableArray<CurvePoint> Curve(StrategyDraw[] draws)
    {
        // The years stand at other places of the grid in draws whose overlays end at other dates.
        var curve = ImmutableArray.CreateBuilder<CurvePoint>();
        for (var y = 0; y < draws[0].Grid.Yearly.Length; y++)
        {
            curve.Add(
                new(
                    draws[0].Grid.TimesYr[draws[0].Grid.Yearly[y]],
                    Band(draws, d => d.Damaged[d.Grid.Yearly[y]]),
                    Band(draws, d => d.DamagedOrPatched[d.Grid.Yearly[y]]),
                    Band(draws, d => d.Initiated[d.Grid.Yearly[y]])
                )
            );
        }

        return curve.ToImmutable();
    }

    private static InterventionQuantities Quantities(
        Deck deck,
        StrategyPlan plan,
        int number,
        StrategyDraw[] draws
    )
    {
        var step = plan.Interventions[number];
        PercentileBand Of(Func<InterventionDraw, double> value) => Band(draws, number, value);
        var repaired = Of(d => d.Repaired);
        var load = Of(d => d.AddedKgPerM2).P50;
        return new()
        {
            AtYr = step.WhenOverlayEnds ? Of(d => d.AtYr).P50 : step.AtYr,
            Probability =
                draws.Count(d => d.Interventions[number] is not null) / (double)draws.Length,
            DepthClasses =
            [
                .. step.DepthsMm.Select(
                    (depth, c) => new DepthClass(depth, Of(d => d.ClassShares[c]).P50)
                ),
            ],
            MeanRemovalMm = Of(d => d.MeanRemovalMm),
            MeanPlacedMm = Of(d => d.MeanPlacedMm),
            RepairedFraction = repaired,
            SoundedFraction = Of(d => deck.Surveys.DetectionProbability * d.Repaired),
            UndercutFraction = Of(d => d.Undercut),
            RemovedByPotentialFraction = Of(d => d.RemovedByPotential),
            ExposedAtOnceFraction = Of(d => d.Repaired + d.Undercut + d.RemovedByPotential),
            RimFraction = Of(d => d.RimFraction),
            StruckFraction = Of(d => d.Struck),
            LeastRemainingMm = Of(d => d.LeastRemainingMm).P50,
            RemainingUnderBarsMm = Of(d => d.RemainingUnderBarsMm).P50,
            GradeRiseMm =
                plan.Interventions.Take(number + 1)
                    .Sum(i => (i.Material is null ? 0 : i.ThicknessMm) - i.LeastDepthMm)
                + (
                    plan.Interventions.Take(number + 1)
                        .LastOrDefault(i => i.ChangesSection)
                        ?.ProtectionThicknessMm
                    ?? 0
                ),
            AddedDeadLoadKnPerM2 = load == 0 ? null : load * StandardGravity / 1000,
        };
    }

    private static ImmutableArray<Diagnostic> Flags(
        Deck deck,
        StrategyPlan plan,
        StrategyDraw[] draws
    )
    {
        var flags = ImmutableArray.CreateBuilder<Diagnostic>();
        var (mostUndercut, mostRepaired) = (0.0, 0.0);
        var byPotential = false;
        var leavesRim = false;
        for (var n = 0; n < plan.Interventions.Length; n++)
        {
            var intervention = plan.Interventions[n];
            mostUndercut = Math.Max(mostUndercut, Band(draws, n, d => d.Undercut).P50);
            mostRepaired = Math.Max(
                mostRepaired,
                Band(draws, n, d => d.Repaired + d.RemovedByPotential).P50
            );
            byPotential |= Band(draws, n, d => d.RemovedByPotential).P50 >= LeastExposed;
            leavesRim |=
                intervention.RepairsDamage
                && !intervention.Covers
                && (deck.Halo is null || !plan.CountsHalo);
            var above = Band(draws, n, d => d.AboveLimit).P50;
            if (intervention.Limit is not null && above > 0.005)
            {
                flags.Add(
                    DiagnosticCatalogue.LimitNotReached.With(100 * above, intervention.DepthsMm[^1])
                );
            }

            if (
                intervention.Material?.LeastThickness is { } least
                && intervention.ThicknessMm < least.Millimetres
            )
            {
                flags.Add(
                    DiagnosticCatalogue.OverlayThinnerThanSpecified.With(
                        intervention.Material.Name,
                        intervention.ThicknessMm,
                        least.Millimetres
                    )
                );
            }
        }

        if (leavesRim)
        {
            flags.Insert(0, DiagnosticCatalogue.HaloNotCounted.With());
        }

        if (mostRepaired >= LeastExposed)
        {
            flags.Insert(
                0,
                DiagnosticCatalogue.RepairsExposeTopBars.With(
                    byPotential
                        ? "Repairs of damaged places and removal by half-cell potential"
                        : "Repairs of damaged places",
                    100 * mostRepaired,
                    mostUndercut < LeastExposed && plan.Interventions.Any(i => i.DepthsMm[^1] > 0)
                        ? ", and the planned depth of removal none"
                        : ""
                )
            );
        }

        if (mostUndercut >= LeastExposed)
        {
            flags.Insert(0, DiagnosticCatalogue.RemovalBelowTopBars.With(100 * mostUndercut));
        }

        return flags.ToImmutable();
    }

    private static PercentileBand Band(StrategyDraw[] draws, Func<StrategyDraw, double> value) =>
        Percentiles.Band([.. draws.Select(value)]);

    // Over the draws in which the intervention comes about; all 0 where it does in none.
    private static PercentileBand Band(
        StrategyDraw[] draws,
        int number,
        Func<InterventionDraw, double> value
    )
    {
        double[] values =
        [
            .. draws.Select(d => d.Interventions[number]).OfType<InterventionDraw>().Select(value),
        ];
        return values.Length == 0 ? new(0, 0, 0) : Percentiles.Band(values);
    }
}
