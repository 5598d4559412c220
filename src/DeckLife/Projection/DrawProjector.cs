using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Rehabilitation;
using DeckLife.Surveys;

namespace DeckLife.Projection;

/// <summary>Follows all strategies through one draw of what is not known: the same points for each of them.</summary>
/// <remarks>
/// The threshold is integrated exactly: a point is initiated where the threshold lies below the highest content that
/// its bar has seen. At an intervention the thresholds of a point fall into the damaged (repaired, so the bar then lies in new
/// material), and the rest, which carry their residual salt and, where already active, their clock.
/// </remarks>
internal sealed class DrawProjector
{
    /// <summary>Share of a point below which a repaired part is not followed further.</summary>
    private const double LeastShare = 1e-6;

    private const int LeastForQuarter = 256;

    private readonly Deck deck;
    private readonly ExposureClock clock;
    private readonly ISectionSolver solver;
    private readonly int steps;
    private readonly KnowledgeDraw draw;
    private readonly AreaPoints points;
    private readonly PointDistribution threshold;
    private readonly double background;
    private readonly UntreatedArea untreated;
    private readonly double patchedToday;
    private readonly Dictionary<double, (double Initiated, double Damaged)> known = [];

    /// <summary>Prepares one draw.</summary>
    public DrawProjector(
        Deck deck,
        ExposureClock clock,
        ISectionSolver solver,
        int steps,
        KnowledgeDraw draw,
        AreaPoints points
    )
    {
        this.deck = deck;
        this.clock = clock;
        this.solver = solver;
        this.steps = steps;
        this.draw = draw;
        this.points = points;
        threshold = draw.Population.Threshold;
        background = draw.Population.BackgroundKgPerM3;
        untreated = new(points, threshold, background, clock);
        patchedToday = Math.Clamp(
            deck.Soundings.Where(a => a.Finding == SoundingFinding.Patched).Sum(a => a.AreaM2)
                / deck.AreaM2,
            0,
            1
        );
    }

    private double Now => clock.ExposureAtSurveyYr;

    /// <summary>Follows one strategy.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="grid">Its times.</param>
    public StrategyDraw Follow(StrategyPlan plan, TimeGrid grid)
    {
        var damaged = new double[grid.TimesYr.Length];
        var initiated = new double[grid.TimesYr.Length];
        for (var j = 0; j < grid.TimesYr.Length && !grid.IsAfter[j]; j++)
        {
            (initiated[j], damaged[j]) = Untreated(grid.TimesYr[j]);
        }

        var intervention = plan.Interventions.FirstOrDefault();
        var quantities = intervention is null
            ? null
            : After(intervention, grid, damaged, initiated);
        return new()
        {
            DamagedOrPatched = CountPatches(intervention, quantities, grid, damaged),
            Damaged = damaged,
            Initiated = initiated,
            Intervention = quantities,
            OverlayEndYr = intervention is null
                ? double.PositiveInfinity
                : OverlayEnd(intervention),
        };
    }

    // What the model calls damaged until an intervention includes what had been damaged and patched before the survey.
    private double[] CountPatches(
        PlannedIntervention? intervention,
        InterventionDraw? quantities,
        TimeGrid grid,
        double[] damaged
    )
    {
        var both = new double[damaged.Length];
        for (var j = 0; j < damaged.Length; j++)
        {
            if (!grid.IsAfter[j])
            {
                both[j] = Math.Max(damaged[j], patchedToday);
                damaged[j] = Math.Max(0, damaged[j] - patchedToday);
                continue;
            }

            // A full-width overlay starts the count again; removal without one leaves its repairs as patches.
            var patches = intervention!.Material is null ? patchedToday + quantities!.Repaired : 0;
            both[j] = Math.Min(1, damaged[j] + patches);
        }

        return both;
    }

    // Before their first intervention all strategies are the same deck: computed once, the same bits for each.
    private (double Initiated, double Damaged) Untreated(double time)
    {
        if (!known.TryGetValue(time, out var shares))
        {
            shares = (
                Shifted(untreated.InitiatedFraction(Now + time)),
                Shifted(untreated.DamagedFraction(Now + time))
            );
            known.Add(time, shares);
        }

        return shares;
    }

    private double OverlayEnd(PlannedIntervention intervention) =>
        intervention.Material?.ServiceLife is { } life
            ? intervention.AtYr
                + PointDistribution
                    .WithinDeck(
                        life,
                        0,
                        NormalQuantile.At(draw.MaterialLifeUniforms[intervention.MaterialIndex])
                    )
                    .Quantile(0.5)
            : double.PositiveInfinity;

    private InterventionDraw After(
        PlannedIntervention intervention,
        TimeGrid grid,
        double[] damaged,
        double[] initiated
    )
    {
        var placing = new PlacingProblem(deck, clock, intervention, draw, points, background);
        var span = deck.Horizon.Years - intervention.AtYr;
        var repaired = new double[points.Count];
        var highestBefore = new double[points.Count];
        untreated.ContentsAtStartOfDamage(Now + intervention.AtYr, repaired);
        threshold.Cumulative(repaired, repaired);
        untreated.ContentsAtBars(Now + intervention.AtYr, highestBefore);
        // Repaired parts are a few per cent of the deck: a quarter of the points, itself a point set of low discrepancy, stands for them.
        var followed = points.Count >= LeastForQuarter ? points.Count / 4 : points.Count;
        var cohorts = new Cohorts(
            intervention.Material is null ? 1 : deck.CorrosionRateUnderOverlay,
            threshold,
            untreated,
            points,
            repaired,
            followed,
            Solve(placing, span, highestBefore, isRenewed: false, i => !placing.IsUndercut(i)),
            Solve(
                placing,
                span,
                [],
                isRenewed: true,
                i => placing.IsUndercut(i) || (i < followed && repaired[i] > LeastShare)
            )
        );
        for (var j = 1; j < grid.TimesYr.Length; j++)
        {
            if (!grid.IsAfter[j])
            {
                continue;
            }

            var since = grid.TimesYr[j] - intervention.AtYr;
            // Reading between steps could fall by the interpolation's error; the shares themselves can't.
            var first = !grid.IsAfter[j - 1];
            initiated[j] = Math.Max(
                Shifted(cohorts.Initiated(since)),
                first ? 0 : initiated[j - 1]
            );
            damaged[j] = Math.Min(
                Math.Max(
                    Shifted(cohorts.Damaged(since, Now + intervention.AtYr)),
                    first ? 0 : damaged[j - 1]
                ),
                initiated[j]
            );
        }

        var quantities = placing.Quantities(repaired);
        quantities.Repaired = Math.Max(0, Shifted(quantities.Repaired) - patchedToday);
        return quantities;
    }

    private double Shifted(double share) => ModelDiscrepancy.Shift(share, draw.Discrepancy);

    private CohortHistories Solve(
        PlacingProblem placing,
        double span,
        double[] highestBefore,
        bool isRenewed,
        Func<int, bool> isIn
    )
    {
        var batch = placing.Batch(BarHistories.Times(span, steps), isIn, isRenewed, out var places);
        var contents = new double[(steps + 1) * batch.Count];
        if (batch.Count > 0)
        {
            solver.Solve(batch, contents);
        }

        var start = new double[batch.Count];
        if (highestBefore.Length > 0)
        {
            for (var i = 0; i < places.Length; i++)
            {
                if (places[i] >= 0)
                {
                    start[places[i]] = highestBefore[i];
                }
            }
        }

        return new(places, new(contents, start, batch.Count, steps, span), batch.Count);
    }
}
