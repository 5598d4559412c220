using DeckLife.Population;

namespace DeckLife.Projection;

/// <summary>The content that each bar has seen in places with one fate: never repaired, or repaired last at one intervention.</summary>
/// <remarks>Until something changes the section the untouched deck's closed form; from then on the layered solver, intervention by intervention.</remarks>
internal sealed class Column
{
    private readonly int[] points;
    private readonly UntreatedArea untreated;
    private readonly PointDistribution threshold;
    private readonly double exposureAtSurveyYr;
    private readonly double[] startsYr;
    private readonly int firstSolved;
    private readonly BarHistories[] histories;
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
    public Column(
        int[] points,
        UntreatedArea untreated,
        PointDistribution threshold,
        double exposureAtSurveyYr,
        double[] startsYr,
        int firstSolved,
        BarHistories[] histories
    )
    {
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

        histories[phase - firstSolved].Highest(timeYr - startsYr[phase], compact);
        threshold.Cumulative(compact, compact);
        for (var c = 0; c < points.Length; c++)
        {
            shares[points[c]] = compact[c];
        }
    }

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
