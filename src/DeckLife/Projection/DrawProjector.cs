using DeckLife.Population;
using DeckLife.Rehabilitation;
using DeckLife.Surveys;

namespace DeckLife.Projection;

/// <summary>Follows all strategies through one draw of what is not known: the same points for each of them.</summary>
/// <remarks>
/// The threshold is integrated exactly: a point is initiated where the threshold lies below the highest content that
/// its bar has seen. At each intervention the thresholds of a point fall into the damaged (repaired, so the bar then lies in new
/// material), and the rest, which carry their residual salt and, where already active, their clock.
/// </remarks>
internal sealed class DrawProjector
{
    private readonly Deck deck;
    private readonly ExposureClock clock;
    private readonly ISectionSolver solver;
    private readonly int steps;
    private readonly KnowledgeDraw draw;
    private readonly AreaPoints points;
    private readonly UntreatedArea untreated;
    private readonly CohortStates states;
    private readonly DrawBuffers buffers;
    private readonly double patchedToday;
    private readonly Dictionary<double, (double Initiated, double Damaged)> known = [];

    /// <summary>Prepares one draw.</summary>
    public DrawProjector(
        Deck deck,
        ExposureClock clock,
        ISectionSolver solver,
        int steps,
        KnowledgeDraw draw,
        AreaPoints points,
        DrawBuffers? buffers = null
    )
    {
        this.buffers = buffers ?? new();
        this.deck = deck;
        this.clock = clock;
        this.solver = solver;
        this.steps = steps;
        this.draw = draw;
        this.points = points;
        untreated = UntreatedArea.Of(draw.Population, points, clock);
        states = new(points, draw.Population.Threshold);
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
    public StrategyDraw Follow(StrategyPlan plan)
    {
        var schedule = WorkSchedule.For(plan, draw, deck.Horizon.Years);
        var grid = TimeGrid.For(deck.Horizon.Years, [.. schedule.Works.Select(w => w.AtYr)]);
        var damaged = new double[grid.TimesYr.Length];
        var initiated = new double[grid.TimesYr.Length];
        var both = new double[grid.TimesYr.Length];
        var unpatched = new double[grid.TimesYr.Length];
        var j = 0;
        for (; j < grid.TimesYr.Length && grid.Phase[j] == 0; j++)
        {
            (initiated[j], damaged[j]) = Untreated(grid.TimesYr[j]);
        }

        var count = new PatchCount(patchedToday);
        count.Apply(grid, 0, damaged, unpatched, both);
        var quantities = new InterventionDraw?[plan.Interventions.Length];
        if (schedule.Works.Length > 0)
        {
            var works = new WorkPlanner(deck, clock, solver, draw, points, untreated).Depths(
                schedule.Works
            );
            var columns = new ColumnSolver(
                deck,
                clock,
                solver,
                steps,
                draw,
                points,
                untreated,
                works,
                buffers
            );
            var splitter = new CohortSplitter(deck, points, states, columns, works)
            {
                CountsHalo = plan.CountsHalo,
            };
            var cohorts = splitter.Untouched();
            var load = new LayerStack(deck, points);
            for (var k = 0; k < works.Count; k++)
            {
                var done = WorkQuantitiesAtPoints.Planned(deck, works[k]);
                cohorts = splitter.Split(cohorts, k, done);
                WorkQuantitiesAtPoints.Complete(works[k], load, done);
                var repaired = Shifted(done.Repaired);
                done.Repaired = count.Repair(
                    works[k].Step,
                    repaired,
                    repaired * Ratio(done.NewlyRepaired, done.Repaired)
                );
                quantities[works[k].Work.Number] = done;
                FillPhase(cohorts, grid, k + 1, damaged, unpatched, initiated);
                count.Apply(grid, k + 1, damaged, unpatched, both);
            }
        }

        buffers.TakeBack();
        return new()
        {
            Grid = grid,
            DamagedOrPatched = both,
            Damaged = damaged,
            Initiated = initiated,
            Interventions = quantities,
            OverlayEndYr = schedule.CoverEndYr,
        };
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

    private void FillPhase(
        List<Cohort> cohorts,
        TimeGrid grid,
        int phase,
        double[] damaged,
        double[] unpatched,
        double[] initiated
    )
    {
        var isFirst = true;
        for (var j = 0; j < grid.TimesYr.Length; j++)
        {
            if (grid.Phase[j] != phase)
            {
                continue;
            }

            // Reading between steps could fall by the interpolation's error; the shares themselves can't.
            var time = grid.TimesYr[j];
            initiated[j] = Math.Max(
                Shifted(states.Initiated(cohorts, time)),
                isFirst ? 0 : initiated[j - 1]
            );
            var now = states.Damaged(cohorts, time, out var outside);
            damaged[j] = Math.Min(
                Math.Max(Shifted(now), isFirst ? 0 : damaged[j - 1]),
                initiated[j]
            );
            unpatched[j] = Math.Max(
                damaged[j] * Ratio(outside, now),
                isFirst ? 0 : unpatched[j - 1]
            );
            isFirst = false;
        }
    }

    private static double Ratio(double part, double whole) => whole <= 0 ? 1 : part / whole;

    private double Shifted(double share) => ModelDiscrepancy.Shift(share, draw.Discrepancy);
}
