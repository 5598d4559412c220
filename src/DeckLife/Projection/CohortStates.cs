using DeckLife.Population;

namespace DeckLife.Projection;

/// <summary>How much of a set of cohorts has initiated or is damaged at a time.</summary>
internal sealed class CohortStates
{
    private readonly AreaPoints points;
    private readonly PointDistribution threshold;
    private readonly bool onePropagation;
    private readonly double[] shares;
    private readonly double[] own;

    /// <summary>Prepares for the points of one draw.</summary>
    public CohortStates(AreaPoints points, PointDistribution threshold)
    {
        this.points = points;
        this.threshold = threshold;
        shares = new double[points.Count];
        own = new double[points.Count];
        onePropagation = Array.TrueForAll(points.PropagationYr, p => p == points.PropagationYr[0]);
    }

    /// <summary>Initiated share of the area.</summary>
    /// <param name="cohorts">The cohorts; those of one column stand together.</param>
    /// <param name="timeYr">Time from the survey [yr].</param>
    public double Initiated(IReadOnlyList<Cohort> cohorts, double timeYr)
    {
        var sum = 0.0;
        Column? known = null;
        foreach (var cohort in cohorts)
        {
            if (cohort.PassedBy(timeYr) is { } passed)
            {
                sum += passed;
                continue;
            }

            if (known != cohort.Column)
            {
                cohort.Column.Shares(timeYr, shares);
                known = cohort.Column;
            }

            sum += cohort.Passed(shares);
        }

        return Math.Clamp(sum / points.Count, 0, 1);
    }

    /// <summary>Damaged share of the area.</summary>
    /// <param name="cohorts">The cohorts; those of one column and clock stand together.</param>
    /// <param name="timeYr">Time from the survey [yr].</param>
    /// <param name="unpatched">What of it was not patched since the last full-width overlay.</param>
    public double Damaged(IReadOnlyList<Cohort> cohorts, double timeYr, out double unpatched)
    {
        var sum = 0.0;
        unpatched = 0;
        Cohort? known = null;
        foreach (var cohort in cohorts)
        {
            if (onePropagation && PassedEarlyEnough(cohort, timeYr) is { } early)
            {
                sum += early;
                unpatched += cohort.IsPatched ? 0 : early;
                continue;
            }

            if (
                known is null
                || known.Column != cohort.Column
                || known.Clock != cohort.Clock
                || known.BornYr != cohort.BornYr
                || !onePropagation
            )
            {
                DamagedShares(cohort, timeYr, shares);
                known = cohort;
            }

            var passed = cohort.Passed(shares);
            sum += passed;
            unpatched += cohort.IsPatched ? 0 : passed;
        }

        unpatched = Math.Clamp(unpatched / points.Count, 0, 1);
        return Math.Clamp(sum / points.Count, 0, 1);
    }

    private double? PassedEarlyEnough(Cohort cohort, double timeYr)
    {
        var started = cohort.Clock.StartOfDamage(timeYr, points.PropagationYr[0]);
        return started < cohort.BornYr ? 0 : cohort.PassedBy(started);
    }

    /// <summary>Share of each point's thresholds passed early enough to be damage, in the cohort's column.</summary>
    /// <param name="cohort">The cohort.</param>
    /// <param name="timeYr">Time from the survey [yr].</param>
    /// <param name="results">Receives one value a point of the deck, at the cohort's points.</param>
    public void DamagedShares(Cohort cohort, double timeYr, double[] results)
    {
        if (onePropagation)
        {
            var started = cohort.Clock.StartOfDamage(timeYr, points.PropagationYr[0]);
            if (started < cohort.BornYr)
            {
                Array.Clear(results);
                return;
            }

            cohort.Column.Shares(started, results);
            return;
        }

        var read = own.AsSpan(0, cohort.Points.Length);
        for (var e = 0; e < read.Length; e++)
        {
            var i = cohort.Points[e];
            var started = cohort.Clock.StartOfDamage(timeYr, points.PropagationYr[i]);
            read[e] =
                started < cohort.BornYr ? -1 : cohort.Column.Highest(i, points.CoverMm[i], started);
        }

        threshold.Cumulative(read, read);
        for (var e = 0; e < read.Length; e++)
        {
            results[cohort.Points[e]] = read[e];
        }
    }
}
