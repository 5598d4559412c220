using DeckLife.Numerics.Vectors;

namespace DeckLife.Projection;

/// <summary>Places with one past: at each point an interval of its thresholds, counted by rank, with the column that they lie in.</summary>
/// <param name="Key">Which column: repaired last at, and open to salt since, these interventions; −1 for never.</param>
/// <param name="Column">The column.</param>
/// <param name="Points">The points, rising.</param>
/// <param name="Lower">Rank from which on [points of the cohort].</param>
/// <param name="Upper">Rank up to which [points of the cohort].</param>
/// <param name="Weight">Weight of its points relative to one point of the deck.</param>
/// <param name="IsThinned">Whether a part of the points stands for all.</param>
/// <param name="BornYr">When the bars came to lie where they lie: negative infinity, or the repair [yr].</param>
/// <param name="Clock">How fast corrosion goes on.</param>
/// <param name="IsPatched">Whether it was patched since the last full-width overlay.</param>
internal sealed record Cohort(
    (int RenewedAt, int OpenAt) Key,
    Column Column,
    int[] Points,
    double[] Lower,
    double[] Upper,
    double Weight,
    bool IsThinned,
    double BornYr,
    CorrosionClock Clock,
    bool IsPatched
)
{
    // The points are the deck's first ones, none left out.
    private readonly bool isPrefix = Points.Length == 0 || Points[^1] == Points.Length - 1;

    private readonly Dictionary<int, double[]> passedAtSteps = [];

    private bool? isSolved;

    /// <summary>Sum over the points of the thresholds passed, where each point's share is given.</summary>
    /// <param name="shares">Share of the thresholds passed, one value a point of the deck.</param>
    public double Passed(ReadOnlySpan<double> shares)
    {
        if (isPrefix)
        {
            return PassedOfOwn(shares[..Points.Length]);
        }

        var sum = 0.0;
        for (var e = 0; e < Points.Length; e++)
        {
            sum += Math.Clamp(shares[Points[e]], Lower[e], Upper[e]) - Lower[e];
        }

        return Weight * sum;
    }

    /// <summary>The same, where the shares of its own points are given.</summary>
    /// <param name="shares">Share of the thresholds passed, one value a point of the cohort.</param>
    public double PassedOfOwn(ReadOnlySpan<double> shares) =>
        Weight * VectorLoops.SumWithin(shares, Lower, Upper);

    /// <summary>The same at a time, read between the solver's steps; nothing where it can't be.</summary>
    /// <param name="timeYr">Time from the survey [yr].</param>
    public double? PassedBy(double timeYr)
    {
        isSolved ??= Column.IsSolvedAt(Points);
        if (isSolved == false || !Column.HasSteps(timeYr, out var history))
        {
            return null;
        }

        if (!passedAtSteps.TryGetValue(history, out var passed))
        {
            passed = Column.PassedAtSteps(history, this);
            passedAtSteps.Add(history, passed);
        }

        return Column.Between(history, passed, timeYr);
    }

    /// <summary>Sum over the points of all thresholds.</summary>
    public double Whole()
    {
        var sum = 0.0;
        for (var e = 0; e < Points.Length; e++)
        {
            sum += Upper[e] - Lower[e];
        }

        return Weight * sum;
    }
}
