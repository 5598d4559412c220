using DeckLife.Population;

namespace DeckLife.Projection;

/// <summary>The content that each bar has seen in places with one fate: never repaired, or repaired last at one intervention.</summary>
/// <remarks>Until something changes the section the untouched deck's closed form; from then on the layered solver, intervention by intervention.</remarks>
internal sealed class Column
{
    // Standard deviation of a threshold's logarithm over the deck. Judgement: a tenth smooths the steps of a few hundred points; what is below is read at
    // every time asked, which costs time only. Half or twice of it changes nothing where thresholds scatter as usual (by 0.2 to 0.5).
    private const double LeastSpread = 0.1;

    private readonly int[] points;
    private readonly UntreatedArea untreated;
    private readonly PointDistribution threshold;
    private readonly double exposureAtSurveyYr;
    private readonly double[] startsYr;
    private readonly int firstSolved;
    private readonly BarHistories[] histories;
    private readonly double[][] sharesAtSteps;
    private readonly DrawBuffers buffers;
    private readonly double[] compact;
    private readonly int[] placeOf;

    /// <summary>Puts the pieces together.</summary>
    /// <param name="points">The points that it is solved at.</param>
    /// <param name="untreated">The deck before anything is done.</param>
    /// <param name="threshold">Threshold over the deck.</param>
    /// <param name="exposureAtSurveyYr">Exposure at the survey [yr].</param>
    /// <param name="startsYr">Date of each intervention [yr].</param>
    /// <param name="firstSolved">The first intervention that changes the section; as many as there are where none does.</param>
    /// <param name="histories">Histories from that intervention on, one an intervention.</param>
    /// <param name="buffers">Where long arrays come from.</param>
    public Column(
        int[] points,
        UntreatedArea untreated,
        PointDistribution threshold,
        double exposureAtSurveyYr,
        double[] startsYr,
        int firstSolved,
        BarHistories[] histories,
        DrawBuffers buffers
    )
    {
        this.buffers = buffers;
        sharesAtSteps = new double[histories.Length][];
        this.points = points;
        this.untreated = untreated;
        this.threshold = threshold;
        this.exposureAtSurveyYr = exposureAtSurveyYr;
        this.startsYr = startsYr;
        this.firstSolved = firstSolved;
        this.histories = histories;
        compact = new double[points.Length];
        placeOf = [];
        if (points.Length > 0)
        {
            placeOf = new int[points[^1] + 1];
            Array.Fill(placeOf, -1);
            for (var c = 0; c < points.Length; c++)
            {
                placeOf[points[c]] = c;
            }
        }
    }

    /// <summary>Share of each point's thresholds that its bar has passed by a time.</summary>
    /// <param name="timeYr">Time from the survey [yr].</param>
    /// <param name="shares">Receives one value a point of the deck; what stands at points that the column is not solved at means nothing.</param>
    public void Shares(double timeYr, Span<double> shares)
    {
        var phase = PhaseAt(timeYr);
        if (phase < firstSolved)
        {
            if (exposureAtSurveyYr + timeYr < 0)
            {
                shares.Clear();
                return;
            }

            untreated.ContentsAtBars(exposureAtSurveyYr + timeYr, shares);
            threshold.Cumulative(shares, shares);
            return;
        }

        if (phase == firstSolved && timeYr == startsYr[phase] && points.Length < shares.Length)
        {
            // Just before the first change the deck is still untouched, also where it has no section after it.
            untreated.ContentsAtBars(exposureAtSurveyYr + timeYr, shares);
            threshold.Cumulative(shares, shares);
        }

        // The deck's first points, none left out: no place is another's.
        if (points.Length > 0 && points[^1] == points.Length - 1)
        {
            var own = shares[..points.Length];
            histories[phase - firstSolved].Highest(timeYr - startsYr[phase], own);
            threshold.Cumulative(own, own);
            return;
        }

        histories[phase - firstSolved].Highest(timeYr - startsYr[phase], compact);
        threshold.Cumulative(compact, compact);
        for (var c = 0; c < points.Length; c++)
        {
            shares[points[c]] = compact[c];
        }
    }

    /// <summary>Whether shares at a time can be read between those at the solver's steps.</summary>
    /// <param name="timeYr">Time from the survey [yr].</param>
    /// <param name="history">The history that the time lies in.</param>
    /// <remarks>Not where all thresholds are nearly one: a sum of steps is no smooth function of time.</remarks>
    public bool HasSteps(double timeYr, out int history)
    {
        history = PhaseAt(timeYr) - firstSolved;
        return history >= 0 && threshold.LogarithmicSpread > LeastSpread;
    }

    /// <summary>Whether it is solved at all of some points.</summary>
    /// <param name="some">The points.</param>
    public bool IsSolvedAt(int[] some) =>
        some.Length == points.Length
            ? some.AsSpan().SequenceEqual(points)
            : Array.TrueForAll(some, i => i < placeOf.Length && placeOf[i] >= 0);

    /// <summary>What a cohort's points have passed at each of the solver's steps of a history.</summary>
    /// <param name="history">The history.</param>
    /// <param name="cohort">The cohort.</param>
    public double[] PassedAtSteps(int history, Cohort cohort)
    {
        if (sharesAtSteps[history] is not { } shares)
        {
            var highest = histories[history].HighestAtSteps;
            shares = buffers.Lend(highest.Length);
            threshold.Cumulative(highest, shares);
            sharesAtSteps[history] = shares;
        }

        var count = points.Length;
        var passed = new double[histories[history].HighestAtSteps.Length / Math.Max(1, count)];
        var own = cohort.Points.Length == count ? null : new double[cohort.Points.Length];
        for (var k = 0; k < passed.Length; k++)
        {
            var row = shares.AsSpan(k * count, count);
            for (var e = 0; own is not null && e < own.Length; e++)
            {
                own[e] = row[placeOf[cohort.Points[e]]];
            }

            passed[k] = cohort.PassedOfOwn(own ?? row);
        }

        return passed;
    }

    /// <summary>Reads what is known at the solver's steps of a history.</summary>
    /// <param name="history">The history.</param>
    /// <param name="passed">One value a step.</param>
    /// <param name="timeYr">Time from the survey [yr].</param>
    public double Between(int history, double[] passed, double timeYr) =>
        histories[history].Between(passed, timeYr - startsYr[history + firstSolved]);

    /// <summary>Highest content that one bar has seen by a time [kg/m³]; −1 before the first salt.</summary>
    /// <param name="point">The point.</param>
    /// <param name="coverMm">Its cover at the survey [mm].</param>
    /// <param name="timeYr">Time from the survey [yr].</param>
    public double Highest(int point, double coverMm, double timeYr)
    {
        var phase = PhaseAt(timeYr);
        return phase >= firstSolved
                ? histories[phase - firstSolved].Highest(placeOf[point], timeYr - startsYr[phase])
            : exposureAtSurveyYr + timeYr < 0 ? -1
            : untreated.ContentAtDepth(point, coverMm, exposureAtSurveyYr + timeYr);
    }

    /// <summary>Content at one bar at a time [kg/m³].</summary>
    /// <param name="point">The point.</param>
    /// <param name="coverMm">Its cover at the survey [mm].</param>
    /// <param name="timeYr">Time from the survey [yr].</param>
    /// <param name="phase">The intervention that it is after; −1 for none. Tells before from after at an intervention's own time.</param>
    public double Content(int point, double coverMm, double timeYr, int phase) =>
        phase >= firstSolved
            ? histories[phase - firstSolved].Content(placeOf[point], timeYr - startsYr[phase])
            : untreated.ContentAtDepth(point, coverMm, exposureAtSurveyYr + timeYr);

    // The last intervention at or before a time; −1 for none.
    private int PhaseAt(double timeYr)
    {
        var phase = startsYr.Length - 1;
        while (phase >= 0 && startsYr[phase] > timeYr)
        {
            phase--;
        }

        return phase;
    }
}
