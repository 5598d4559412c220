namespace DeckLife.Projection;

/// <summary>A cohort in the making.</summary>
internal sealed class CohortDraft
{
    private readonly List<int> which = [];
    private readonly List<double> lower = [];
    private readonly List<double> upper = [];

    public CohortDraft(Cohort from)
    {
        Key = from.Key;
        Weight = from.Weight;
        IsThinned = from.IsThinned;
        BornYr = from.BornYr;
        Clock = from.Clock;
        IsRim = from.Clock.IsRim;
        IsPatched = from.IsPatched;
    }

    public CohortDraft(Cohort from, (int RenewedAt, int OpenAt) key, double bornYr)
        : this(from)
    {
        Key = key;
        BornYr = bornYr;
        IsRenewed = true;
        IsRim = false;
        Clock = CorrosionClock.Plain;
    }

    public (int RenewedAt, int OpenAt) Key { get; set; }

    public double Weight { get; set; }

    public bool IsThinned { get; set; }

    public bool IsRenewed { get; }

    public bool IsRim { get; set; }

    public bool IsPatched { get; set; }

    public double BornYr { get; }

    public CorrosionClock Clock { get; set; }

    public int[] Points => [.. which];

    public double[] Lower => [.. lower];

    public double[] Upper => [.. upper];

    public double Mass
    {
        get
        {
            var sum = 0.0;
            for (var e = 0; e < which.Count; e++)
            {
                sum += upper[e] - lower[e];
            }

            return Weight * sum;
        }
    }

    public void Add(int point, double low, double high, double least)
    {
        if (high - low > least)
        {
            which.Add(point);
            lower.Add(low);
            upper.Add(high);
        }
    }

    public void Thin(int followed)
    {
        var keep = which.FindIndex(i => i >= followed);
        if (keep >= 0)
        {
            which.RemoveRange(keep, which.Count - keep);
            lower.RemoveRange(keep, lower.Count - keep);
            upper.RemoveRange(keep, upper.Count - keep);
        }
    }

    public CohortDraft Copy()
    {
        var copy = new CohortDraft(this);
        copy.which.AddRange(which);
        copy.lower.AddRange(lower);
        copy.upper.AddRange(upper);
        return copy;
    }

    private CohortDraft(CohortDraft from)
    {
        Key = from.Key;
        Weight = from.Weight;
        IsThinned = from.IsThinned;
        IsRenewed = from.IsRenewed;
        IsRim = from.IsRim;
        IsPatched = from.IsPatched;
        BornYr = from.BornYr;
        Clock = from.Clock;
    }
}
