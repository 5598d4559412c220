using DeckLife.Population;

namespace DeckLife.Projection;

/// <summary>What became of a deck's points after an intervention, threshold by threshold.</summary>
/// <remarks>
/// Of a point's thresholds those passed a propagation period before the intervention are damaged and repaired: they start again
/// in new material. The others keep the highest content that their bar has seen and, where active, their clock; where
/// removal went on to under the bar, all of them start again.
/// </remarks>
internal sealed class Cohorts
{
    private readonly double rate;
    private readonly PointDistribution threshold;
    private readonly UntreatedArea untreated;
    private readonly AreaPoints points;
    private readonly double[] repaired;
    private readonly int followed;
    private readonly double followedWeight;
    private readonly CohortHistories kept;
    private readonly CohortHistories renewed;
    private readonly double[] keptShares;
    private readonly double[] renewedShares;
    private readonly bool onePropagation;
    private readonly Dictionary<double, double> known = [];

    /// <summary>Puts the pieces together.</summary>
    /// <param name="rate">Rate of corrosion after the intervention relative to before.</param>
    /// <param name="threshold">Threshold over the deck.</param>
    /// <param name="untreated">The deck before the intervention.</param>
    /// <param name="points">The points.</param>
    /// <param name="repaired">Share of each point that was damaged and is repaired.</param>
    /// <param name="followed">Number of points, from the first on, whose repaired parts are followed and stand for all.</param>
    /// <param name="kept">Histories of points that were not undercut.</param>
    /// <param name="renewed">Histories of points that were undercut or, in part, repaired.</param>
    public Cohorts(
        double rate,
        PointDistribution threshold,
        UntreatedArea untreated,
        AreaPoints points,
        double[] repaired,
        int followed,
        CohortHistories kept,
        CohortHistories renewed
    )
    {
        this.rate = rate;
        this.threshold = threshold;
        this.untreated = untreated;
        this.points = points;
        this.repaired = repaired;
        this.followed = followed;
        followedWeight = (double)points.Count / followed;
        this.kept = kept;
        this.renewed = renewed;
        keptShares = new double[Math.Max(kept.Count, points.Count)];
        renewedShares = new double[renewed.Count];
        onePropagation = Array.TrueForAll(points.PropagationYr, p => p == points.PropagationYr[0]);
    }

    /// <summary>Initiated share of the area.</summary>
    /// <param name="since">Time since the intervention [yr].</param>
    /// <remarks>Kept: with one propagation period of whole years damage asks for the same times again.</remarks>
    public double Initiated(double since)
    {
        if (!known.TryGetValue(since, out var share))
        {
            Shares(kept, since, keptShares);
            Shares(renewed, since, renewedShares);
            share = Sum();
            known.Add(since, share);
        }

        return share;
    }

    /// <summary>Damaged share of the area.</summary>
    /// <param name="since">Time since the intervention [yr].</param>
    /// <param name="exposureAtIntervention">Exposure of the deck at the intervention [yr].</param>
    public double Damaged(double since, double exposureAtIntervention)
    {
        if (!onePropagation)
        {
            return DamagedPointByPoint(since, exposureAtIntervention);
        }

        var started = StartOfDamage(since, points.PropagationYr[0]);
        if (started >= 0)
        {
            return Initiated(started);
        }

        // Damage from corrosion that had begun before the intervention: only where the old concrete was left around the bar.
        var exposure = exposureAtIntervention + started;
        if (exposure < 0)
        {
            return 0;
        }

        var shares = keptShares.AsSpan(0, points.Count);
        untreated.ContentsAtBars(exposure, shares);
        threshold.Cumulative(shares, shares);
        var sum = 0.0;
        for (var i = 0; i < points.Count; i++)
        {
            sum += kept.Places[i] < 0 ? 0 : Math.Max(0, shares[i] - repaired[i]);
        }

        return sum / points.Count;
    }

    private double DamagedPointByPoint(double since, double exposureAtIntervention)
    {
        var sum = 0.0;
        for (var i = 0; i < points.Count; i++)
        {
            var started = StartOfDamage(since, points.PropagationYr[i]);
            if (started >= 0)
            {
                sum += Share(
                    i,
                    kept.Places[i] < 0
                        ? 0
                        : threshold.Cumulative(kept.Histories.Highest(kept.Places[i], started)),
                    renewed.Places[i] < 0
                        ? 0
                        : threshold.Cumulative(
                            renewed.Histories.Highest(renewed.Places[i], started)
                        )
                );
            }
            else if (kept.Places[i] >= 0 && exposureAtIntervention + started >= 0)
            {
                var content = untreated.ContentAtDepth(
                    i,
                    points.CoverMm[i],
                    exposureAtIntervention + started
                );
                sum += Math.Max(0, threshold.Cumulative(content) - repaired[i]);
            }
        }

        return sum / points.Count;
    }

    // When corrosion must have started to be damage at a time since the intervention; both relative to it.
    private double StartOfDamage(double since, double propagation) =>
        rate == 1 ? since - propagation
        : rate * since >= propagation ? since - propagation / rate
        : rate * since - propagation;

    private void Shares(CohortHistories cohort, double since, double[] shares)
    {
        var span = shares.AsSpan(0, cohort.Count);
        cohort.Histories.Highest(since, span);
        threshold.Cumulative(span, span);
    }

    private double Sum()
    {
        var sum = 0.0;
        for (var i = 0; i < points.Count; i++)
        {
            sum += Share(
                i,
                kept.Places[i] < 0 ? 0 : keptShares[kept.Places[i]],
                renewed.Places[i] < 0 ? 0 : renewedShares[renewed.Places[i]]
            );
        }

        return sum / points.Count;
    }

    private double Share(int i, double keptShare, double renewedShare) =>
        kept.Places[i] < 0
            ? renewedShare
            : (i < followed ? followedWeight * Math.Min(repaired[i], renewedShare) : 0)
                + Math.Max(0, keptShare - repaired[i]);
}
