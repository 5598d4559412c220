namespace DeckLife.Projection;

/// <summary>The times at which a strategy is looked at: each year, the horizon, and just before and after each intervention.</summary>
internal sealed class TimeGrid
{
    private TimeGrid(double[] times, int[] phase, int[] yearly)
    {
        TimesYr = times;
        Phase = phase;
        Yearly = yearly;
    }

    /// <summary>Times from the survey [yr], rising; an intervention's own time stands twice.</summary>
    public double[] TimesYr { get; }

    /// <summary>How many interventions lie before each time; at their own time, the first entry does not count them.</summary>
    public int[] Phase { get; }

    /// <summary>Where the yearly times (and the horizon) stand: the state before an intervention.</summary>
    public int[] Yearly { get; }

    /// <summary>Makes the grid.</summary>
    /// <param name="horizonYr">Horizon [yr].</param>
    /// <param name="interventionsYr">Dates of the interventions, rising [yr].</param>
    public static TimeGrid For(double horizonYr, double[] interventionsYr)
    {
        var before = new SortedSet<double>();
        for (var year = 0; year < horizonYr; year++)
        {
            before.Add(year);
        }

        before.Add(horizonYr);
        var yearly = before.ToHashSet();
        before.UnionWith(interventionsYr);
        var times = new List<double>();
        var phases = new List<int>();
        var places = new List<int>();
        var done = 0;
        foreach (var time in before)
        {
            if (yearly.Contains(time))
            {
                places.Add(times.Count);
            }

            times.Add(time);
            phases.Add(done);
            if (done < interventionsYr.Length && interventionsYr[done] == time)
            {
                done++;
                times.Add(time);
                phases.Add(done);
            }
        }

        return new([.. times], [.. phases], [.. places]);
    }
}
