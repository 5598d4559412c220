using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>Decides the depths of all interventions at the points of one draw, each from the salt that the ones before have left.</summary>
internal sealed class WorkPlanner
{
    // As many as a projection's: see ProjectionRun.SolverSteps.
    private const int Steps = ProjectionRun.SolverSteps;

    private readonly Deck deck;
    private readonly ExposureClock clock;
    private readonly ISectionSolver solver;
    private readonly KnowledgeDraw draw;
    private readonly AreaPoints points;
    private readonly UntreatedArea untreated;

    /// <summary>Puts the pieces together.</summary>
    public WorkPlanner(
        Deck deck,
        ExposureClock clock,
        ISectionSolver solver,
        KnowledgeDraw draw,
        AreaPoints points,
        UntreatedArea untreated
    )
    {
        this.deck = deck;
        this.clock = clock;
        this.solver = solver;
        this.draw = draw;
        this.points = points;
        this.untreated = untreated;
    }

    /// <summary>Decides the depths.</summary>
    /// <param name="schedule">What is done, by date.</param>
    public List<WorkAtPoints> Depths(IReadOnlyList<ScheduledWork> schedule)
    {
        var works = new List<WorkAtPoints>(schedule.Count);
        foreach (var work in schedule)
        {
            works.Add(
                WorkAtPoints.Of(
                    deck,
                    points,
                    work,
                    works.Count == 0 ? null : works[^1],
                    work.Intervention.Limit is { } limit
                        ? Needed(
                            works,
                            work,
                            limit.KilogramsPerCubicMetre,
                            work.Intervention.DepthsMm
                        )
                        : new double[points.Count]
                )
            );
        }

        return works;
    }

    /// <summary>Depth below which the content lies under a limit, at each point [mm]; infinite where none of the depths tried is enough.</summary>
    /// <param name="before">What is done before.</param>
    /// <param name="work">The intervention.</param>
    /// <param name="limit">The limit [kg/m³].</param>
    /// <param name="candidatesMm">Depths to try, rising, where an intervention has changed the profile; else the profile itself tells [mm].</param>
    public double[] Needed(
        List<WorkAtPoints> before,
        ScheduledWork work,
        double limit,
        IReadOnlyList<double> candidatesMm
    )
    {
        var needed = new double[points.Count];
        var background = draw.Population.BackgroundKgPerM3;
        if (!before.Exists(w => w.Step.ChangesSection))
        {
            var above = before.Count == 0 ? SurveyedSection.Of(deck).AboveMm : 0;
            var years = clock.EffectiveYears(clock.ExposureAtSurveyYr + work.AtYr);
            for (var i = 0; i < points.Count; i++)
            {
                needed[i] =
                    above
                    + ResidualDepth.Above(
                        points.SurfaceChloride[i],
                        background,
                        2 * Math.Sqrt(points.DiffusionMm2PerYr[i] * years),
                        limit
                    );
            }

            return needed;
        }

        // A depth is enough where neither it nor any deeper one tried lies above the limit: under an overlay contents may rise with depth.
        Array.Fill(needed, double.PositiveInfinity);
        var works = new List<WorkAtPoints>(before)
        {
            WorkAtPoints.Of(deck, points, work, before[^1], needed),
        };
        var columns = new ColumnSolver(deck, clock, solver, Steps, draw, points, untreated, works);
        var contents = new double[points.Count];
        var isEnough = new bool[points.Count];
        Array.Fill(isEnough, true);
        for (var c = candidatesMm.Count - 1; c >= 0; c--)
        {
            columns.ContentsBefore(before.Count, Math.Max(1, candidatesMm[c]), contents);
            for (var i = 0; i < points.Count; i++)
            {
                isEnough[i] &= contents[i] <= limit;
                if (isEnough[i])
                {
                    needed[i] = candidatesMm[c];
                }
            }
        }

        return needed;
    }
}
