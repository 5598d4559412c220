using DeckLife.Population;
using DeckLife.Rehabilitation;
using MathNet.Numerics.Distributions;

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
    private const double LeastShare = 1e-7;

    private readonly Deck deck;
    private readonly ExposureClock clock;
    private readonly ISectionSolver solver;
    private readonly int steps;
    private readonly KnowledgeDraw draw;
    private readonly AreaPoints points;
    private readonly PointDistribution threshold;
    private readonly double background;
    private readonly UntreatedArea untreated;

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
    }

    private double Now => clock.ExposureAtSurveyYr;

    /// <summary>Follows one strategy.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="grid">Its times.</param>
    public StrategyDraw Follow(StrategyPlan plan, TimeGrid grid)
    {
        var damaged = new double[grid.TimesYr.Length];
        var initiated = new double[grid.TimesYr.Length];
        for (var j = 0; j < grid.TimesYr.Length; j++)
        {
            if (!grid.IsAfter[j])
            {
                initiated[j] = untreated.InitiatedFraction(Now + grid.TimesYr[j]);
                damaged[j] = untreated.DamagedFraction(Now + grid.TimesYr[j]);
            }
        }

        if (plan.Interventions.IsEmpty)
        {
            return new() { Damaged = damaged, Initiated = initiated };
        }

        var intervention = plan.Interventions[0];
        var quantities = After(intervention, grid, damaged, initiated);
        return new()
        {
            Damaged = damaged,
            Initiated = initiated,
            Intervention = quantities,
            OverlayEndYr = OverlayEnd(intervention),
        };
    }

    private double OverlayEnd(PlannedIntervention intervention) =>
        intervention.Material?.ServiceLife is { } life
            ? intervention.AtYr
                + PointDistribution
                    .WithinDeck(
                        life,
                        0,
                        Normal.InvCDF(0, 1, draw.MaterialLifeUniforms[intervention.MaterialIndex])
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
        var times = BarHistories.Times(span, steps);
        var repairShare = new double[points.Count];
        var highestBefore = new double[points.Count];
        for (var i = 0; i < points.Count; i++)
        {
            var started = Now + intervention.AtYr - points.PropagationYr[i];
            repairShare[i] =
                started < 0 ? 0 : threshold.Cumulative(untreated.ContentAtBar(i, started));
            highestBefore[i] = untreated.ContentAtBar(i, Now + intervention.AtYr);
        }

        var kept = placing.Batch(
            times,
            i => !placing.IsUndercut(i),
            renewed: false,
            out var keptAt
        );
        var renewed = placing.Batch(
            times,
            i => placing.IsUndercut(i) || repairShare[i] > LeastShare,
            renewed: true,
            out var renewedAt
        );
        var keptHistories = Solve(kept, keptAt, highestBefore, span);
        var renewedHistories = Solve(renewed, renewedAt, [], span);
        for (var j = 0; j < grid.TimesYr.Length; j++)
        {
            if (!grid.IsAfter[j])
            {
                continue;
            }

            var since = grid.TimesYr[j] - intervention.AtYr;
            double sumInitiated = 0,
                sumDamaged = 0;
            for (var i = 0; i < points.Count; i++)
            {
                var shareNow = Share(
                    i,
                    since,
                    keptAt,
                    keptHistories,
                    renewedAt,
                    renewedHistories,
                    repairShare
                );
                sumInitiated += shareNow;
                var started = StartOfDamage(since, points.PropagationYr[i]);
                sumDamaged +=
                    started >= 0
                        ? Share(
                            i,
                            started,
                            keptAt,
                            keptHistories,
                            renewedAt,
                            renewedHistories,
                            repairShare
                        )
                    : keptAt[i] < 0 ? 0
                    : Math.Max(0, Earlier(i, intervention.AtYr + started) - repairShare[i]);
            }

            // Reading between steps could fall by the interpolation's error; the quantities themselves can't.
            var first = !grid.IsAfter[j - 1];
            initiated[j] = Math.Max(sumInitiated / points.Count, first ? 0 : initiated[j - 1]);
            damaged[j] = Math.Max(sumDamaged / points.Count, first ? 0 : damaged[j - 1]);
        }

        return placing.Quantities(repairShare);
    }

    // Share of a point's thresholds passed between an intervention and a time since it, repaired parts counted afresh.
    private double Share(
        int i,
        double since,
        int[] keptAt,
        BarHistories kept,
        int[] renewedAt,
        BarHistories renewed,
        double[] repairShare
    )
    {
        var again =
            renewedAt[i] < 0 ? 0 : threshold.Cumulative(renewed.Highest(renewedAt[i], since));
        return keptAt[i] < 0
            ? again
            : Math.Min(repairShare[i], again)
                + Math.Max(
                    0,
                    threshold.Cumulative(kept.Highest(keptAt[i], since)) - repairShare[i]
                );
    }

    private double Earlier(int i, double fromSurvey)
    {
        var exposure = Now + fromSurvey;
        return exposure < 0 ? 0 : threshold.Cumulative(untreated.ContentAtBar(i, exposure));
    }

    // When corrosion must have started to be damage at a time since the intervention; both relative to it.
    // Corrosion goes on at its own rate before the intervention and at the rate under an overlay after it.
    private double StartOfDamage(double since, double propagation)
    {
        var rate = deck.CorrosionRateUnderOverlay;
        return rate == 1 ? since - propagation
            : rate * since >= propagation ? since - propagation / rate
            : rate * since - propagation;
    }

    private BarHistories Solve(
        SectionBatch batch,
        int[] places,
        double[] highestBefore,
        double span
    )
    {
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

        return new(contents, start, batch.Count, steps, span);
    }
}
