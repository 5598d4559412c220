using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>Solves columns of one draw and one strategy: the salt goes on from where each intervention left it.</summary>
internal sealed class ColumnSolver
{
    /// <summary>Interventions or ends nearer than this to the horizon have nothing after them [yr].</summary>
    private const double LeastSpanYr = 1e-6;

    private readonly Deck deck;
    private readonly ExposureClock clock;
    private readonly ISectionSolver solver;
    private readonly int steps;
    private readonly KnowledgeDraw draw;
    private readonly AreaPoints points;
    private readonly UntreatedArea untreated;
    private readonly IReadOnlyList<WorkAtPoints> works;
    private readonly DrawBuffers buffers;
    private readonly double[] startsYr;

    /// <summary>Puts the pieces together.</summary>
    public ColumnSolver(
        Deck deck,
        ExposureClock clock,
        ISectionSolver solver,
        int steps,
        KnowledgeDraw draw,
        AreaPoints points,
        UntreatedArea untreated,
        IReadOnlyList<WorkAtPoints> works,
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
        this.untreated = untreated;
        this.works = works;
        startsYr = [.. works.Select(w => w.Work.AtYr)];
    }

    /// <summary>The first intervention that changes the section of a place; as many as there are where none does.</summary>
    /// <param name="renewedAt">The intervention at which the place is repaired; −1 for never.</param>
    public int FirstSolved(int renewedAt)
    {
        var first = 0;
        while (first < works.Count && first != renewedAt && !works[first].Step.ChangesSection)
        {
            first++;
        }

        return first;
    }

    /// <summary>Solves a column to the horizon.</summary>
    /// <param name="renewedAt">The intervention at which the places are repaired last; −1 for never.</param>
    /// <param name="openAt">The intervention whose overlay is cracked, or whose barrier leaks, at the places; −1 for none.</param>
    /// <param name="which">The points, rising.</param>
    public Column Solve(int renewedAt, int openAt, int[] which)
    {
        var first = FirstSolved(renewedAt);
        if (first == works.Count)
        {
            return Made(which, first, []);
        }

        var places = new ColumnPlaces(works, which, first, renewedAt);
        var (times, rows) = Times(first);
        var batch = Batch(places, first, renewedAt, openAt, times);
        var count = batch.Count;
        var contents = buffers.Lend(times.Length * count);
        if (times.Length > 1 && count > 0)
        {
            solver.Solve(batch, contents);
        }
        else
        {
            // An intervention at the horizon itself: nothing happens after it.
            Array.Clear(contents);
        }

        var histories = new BarHistories[works.Count - first];
        var highest = new double[which.Length];
        for (var k = first; k < works.Count; k++)
        {
            if (k == renewedAt)
            {
                Array.Clear(highest);
            }
            else if (k == first)
            {
                StartingHighest(which, highest);
            }

            var from = rows[k - first];
            var sections = places.SectionOf[k - first];
            var to = rows[k - first + 1];
            double? renewedWith = k > first && k == renewedAt ? Initial(works[k].Step) : null;
            // Where each point has one section, and nothing begins anew, the solver's rows are the histories.
            var isRead = count == which.Length && renewedWith is null && to - from == steps;
            histories[k - first] = new(
                isRead ? contents : Gather(contents, count, (from, to), sections, renewedWith),
                isRead ? from : 0,
                highest,
                buffers.Lend((steps + 1) * which.Length),
                which.Length,
                steps,
                SpanYr(k)
            );
            histories[k - first].HighestAtEnd(highest);
        }

        return Made(which, first, histories);
    }

    // The history of each point after one intervention, row by row, from the section that the point is in.
    private double[] Gather(
        double[] contents,
        int count,
        (int First, int Last) rows,
        int[] sections,
        double? renewedWith
    )
    {
        var read = buffers.Lend((steps + 1) * sections.Length);
        for (var q = 0; q <= steps; q++)
        {
            var row = contents.AsSpan(Math.Min(rows.First + q, rows.Last) * count, count);
            var target = read.AsSpan(q * sections.Length, sections.Length);
            for (var c = 0; c < target.Length; c++)
            {
                target[c] = row[sections[c]];
            }
        }

        if (renewedWith is { } content)
        {
            read.AsSpan(0, sections.Length).Fill(content);
        }

        return read;
    }

    /// <summary>Content at a depth just before an intervention, where nothing had been repaired.</summary>
    /// <param name="before">The intervention, not the first that changes the section.</param>
    /// <param name="depthMm">Depth below the surface of that moment [mm].</param>
    /// <param name="results">Receives one value a point [kg/m³].</param>
    public void ContentsBefore(int before, double depthMm, double[] results)
    {
        var first = FirstSolved(-1);
        var which = Enumerable.Range(0, points.Count).ToArray();
        var offsets = new double[points.Count];
        var isAbove = new bool[points.Count];
        for (var i = 0; i < points.Count; i++)
        {
            // In overlays placed after the first change the solver has no place to look at: taken to be as salty as the surface.
            var start = works[first].BarAfterMm[i] + depthMm - works[before].BarBeforeMm[i];
            isAbove[i] = start < 1;
            offsets[i] = isAbove[i] ? 0 : depthMm - works[before].BarBeforeMm[i];
        }

        var places = new ColumnPlaces(works, which, first, -1, offsets);
        var end = startsYr[before] - startsYr[first];
        var batch = Batch(places, first, -1, -1, [0, end]);
        var contents = new double[2 * batch.Count];
        solver.Solve(batch, contents);
        for (var i = 0; i < points.Count; i++)
        {
            results[i] = isAbove[i]
                ? points.SurfaceChloride[i]
                : contents[batch.Count + places.SectionOf[0][i]];
        }
    }

    private Column Made(int[] which, int first, BarHistories[] histories) =>
        new(
            which,
            untreated,
            draw.Population.Threshold,
            clock.ExposureAtSurveyYr,
            startsYr,
            first,
            histories,
            buffers
        );

    private void StartingHighest(int[] which, double[] highest)
    {
        var all = new double[points.Count];
        var exposure = clock.ExposureAtSurveyYr + startsYr[FirstSolved(-1)];
        untreated.ContentsAtBars(exposure, all);
        for (var c = 0; c < which.Length; c++)
        {
            highest[c] = all[which[c]];
        }
    }

    private double SpanYr(int k)
    {
        var end = k + 1 < works.Count ? startsYr[k + 1] : deck.Horizon.Years;
        return end - startsYr[k] > LeastSpanYr ? end - startsYr[k] : 0;
    }

    // All times asked for, from the first change on, and the row at which each intervention's own begin; one more row for the end.
    private (double[] Times, int[] Rows) Times(int first)
    {
        var times = new List<double> { 0 };
        var rows = new int[works.Count - first + 1];
        for (var k = first; k < works.Count; k++)
        {
            rows[k - first] = times.Count - 1;
            var span = SpanYr(k);
            if (span == 0)
            {
                continue;
            }

            var own = BarHistories.Times(span, steps);
            var start = startsYr[k] - startsYr[first];
            for (var q = 1; q < steps; q++)
            {
                times.Add(start + own[q]);
            }

            times.Add(
                (k + 1 < works.Count ? startsYr[k + 1] : deck.Horizon.Years) - startsYr[first]
            );
        }

        rows[^1] = times.Count - 1;
        return ([.. times], rows);
    }

    private SectionBatch Batch(
        ColumnPlaces places,
        int first,
        int renewedAt,
        int openAt,
        double[] times
    )
    {
        var start = works[first];
        var exposure = clock.ExposureAtSurveyYr + start.Work.AtYr;
        var years = clock.EffectiveYears(exposure);
        var surface = SurfaceRun.Of([.. works.Select(w => w.Work)], openAt);
        var atStart = surface.LastOrDefault(
            s => s.AtYr <= start.Work.AtYr,
            (start.Work.AtYr, false, 1)
        );
        var section = SurveyedSection.Of(deck);
        var batch = new SectionBatch(places.Count)
        {
            TimesYr = times,
            Family = Family(first, renewedAt, openAt),
            IsSealed = atStart.IsSealed,
            LayerAgeing = Ageing(start.Step),
            OldAgeing =
                deck.AgeingExponent == 0
                    ? AgeingLaw.None
                    : new(
                        deck.AgeingExponent,
                        clock.ConcreteAgeAtSurveyYr,
                        clock.ConcreteAgeAtSurveyYr + start.Work.AtYr,
                        double.PositiveInfinity
                    ),
            OldInstantaneousRatio = clock.InstantaneousAtSurvey,
            Background = draw.Population.BackgroundKgPerM3,
            SoffitChloride = draw.Population.Soffit?.SurfaceChloride,
            LayerInitial = Initial(start.Step),
            Events = Events(places, first, renewedAt, openAt, surface),
        };
        var diffusion = LayerDiffusion(places, first, openAt);
        for (var a = 0; a < places.Count; a++)
        {
            var i = places.PointOf[a];
            batch.RemovedMm[a] = places.RemovedMm[0][a];
            batch.LayerThicknessMm[a] = places.LayerMm[0][a];
            batch.OldThicknessMm[a] = section.ThicknessMm - batch.RemovedMm[a];
            batch.BarDepthMm[a] = places.BarMm[a];
            batch.ProfileSpreadMm[a] = 2 * Math.Sqrt(points.DiffusionMm2PerYr[i] * years);
            batch.OldSurfaceChloride[a] = points.SurfaceChloride[i];
            batch.SurfaceChloride[a] = points.SurfaceChloride[i] * atStart.Factor;
            batch.OldDiffusion[a] = points.DiffusionMm2PerYr[i];
            batch.LayerDiffusion[a] = diffusion[a];
        }

        return batch;
    }

    private List<SectionBatchEvent> Events(
        ColumnPlaces places,
        int first,
        int renewedAt,
        int openAt,
        List<(double AtYr, bool IsSealed, double Factor)> surface
    )
    {
        var start = startsYr[first];
        var events = new List<SectionBatchEvent>();
        var wasSealed = false;
        var factor = 1.0;
        foreach (var s in surface.Where(s => s.AtYr <= start))
        {
            (wasSealed, factor) = (s.IsSealed, s.Factor);
        }

        var dates = startsYr[(first + 1)..]
            .Concat(surface.Select(s => s.AtYr))
            .Where(t => t > start)
            .Distinct()
            .Order();
        foreach (var at in dates)
        {
            var k = Array.IndexOf(startsYr, at);
            var works = k > first && (this.works[k].Step.ChangesSection || k == renewedAt);
            var (nowSealed, nowFactor) = (wasSealed, factor);
            foreach (var s in surface.Where(s => s.AtYr == at))
            {
                (nowSealed, nowFactor) = (s.IsSealed, s.Factor);
            }

            if (!works && nowSealed == wasSealed && nowFactor == factor)
            {
                continue;
            }

            var step = works ? this.works[k].Step : null;
            var places1 = works ? places.LayerMm[k - first] : null;
            var isPlaced = places1 is not null && Array.Exists(places1, t => t > 0);
            events.Add(
                new()
                {
                    AtYr = at - start,
                    RemovedMm = works ? places.RemovedMm[k - first] : null,
                    LayerThicknessMm = isPlaced ? places1 : null,
                    LayerDiffusion = isPlaced ? LayerDiffusion(places, k, openAt) : null,
                    LayerInitial = isPlaced ? Initial(step!) : 0,
                    LayerAgeing = isPlaced ? Ageing(step!) : AgeingLaw.None,
                    IsSealed = nowSealed == wasSealed ? null : nowSealed,
                    SurfaceChloride =
                        nowFactor == factor
                            ? null
                            :
                            [
                                .. places.PointOf.Select(i =>
                                    nowFactor * points.SurfaceChloride[i]
                                ),
                            ],
                }
            );
            (wasSealed, factor) = (nowSealed, nowFactor);
        }

        return events;
    }

    // What waits for something to end has each draw's own date; a protection has an end of its own, and changes the surface; a
    // salted underside has each draw's own content.
    private SectionFamily? Family(int first, int renewedAt, int openAt)
    {
        if (
            draw.Population.Soffit is not null
            || works.Any(w => w.Step.WhenOverlayEnds || w.Step.Protection is not null)
        )
        {
            return null;
        }

        int[] changes =
        [
            .. Enumerable
                .Range(first, works.Count - first)
                .Where(k => k == first || k == renewedAt || works[k].Step.ChangesSection),
        ];
        int[] materials = [.. changes.Select(k => works[k].Step.MaterialIndex)];
        return materials.Where(m => m >= 0).Distinct().Count() > 1
            ? null
            : new(
                materials,
                [.. changes.Select(k => CrackedFactor(works[k].Step, k == openAt))],
                Array.IndexOf(changes, renewedAt)
            );
    }

    private static double CrackedFactor(PlannedIntervention step, bool isOpen) =>
        isOpen ? step.Material?.CrackedDiffusionFactor ?? 1 : 1;

    private static double Initial(PlannedIntervention step) =>
        step.Material?.InitialChloride.KilogramsPerCubicMetre ?? 0;

    private static AgeingLaw Ageing(PlannedIntervention step) =>
        step.Material is { } material
            ? new(
                material.AgeingExponent,
                material.ReferenceAge.Years,
                material.AgeAtExposure.Years,
                material.ConstantAfter?.Years ?? double.PositiveInfinity
            )
            : AgeingLaw.None;

    // Where no material is named, repairs are filled with concrete like the deck's.
    private double[] LayerDiffusion(ColumnPlaces places, int k, int openAt)
    {
        var step = works[k].Step;
        if (step.Material is not { } material)
        {
            return [.. places.PointOf.Select(i => points.DiffusionMm2PerYr[i])];
        }

        var spread = PointDistribution.WithinDeck(
            material.DiffusionCoefficient,
            material.WithinDeckShare,
            draw.MaterialScores[step.MaterialIndex]
        );
        var factor = CrackedFactor(step, k == openAt);
        var result = new double[places.Count];
        for (var a = 0; a < result.Length; a++)
        {
            result[a] = points.MaterialScore[places.PointOf[a]];
        }

        spread.AtScores(result, result);
        for (var a = 0; a < result.Length; a++)
        {
            result[a] *= factor;
        }

        return result;
    }
}
