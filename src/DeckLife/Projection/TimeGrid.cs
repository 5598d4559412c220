using System.Collections.Immutable;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>The times at which a strategy is looked at: each year, the horizon, and just before and after each intervention.</summary>
internal sealed class TimeGrid
{
    private TimeGrid(double[] times, bool[] isAfter, int[] yearly)
    {
        TimesYr = times;
        IsAfter = isAfter;
        Yearly = yearly;
    }

    /// <summary>Times from the survey [yr], rising; an intervention's own time stands twice.</summary>
    public double[] TimesYr { get; }

    /// <summary>Whether a time lies after the intervention (first one).</summary>
    public bool[] IsAfter { get; }

    /// <summary>Where the yearly times (and the horizon) stand: the state before an intervention.</summary>
    public int[] Yearly { get; }

    /// <summary>Makes the grid of a plan.</summary>
    public static TimeGrid For(double horizonYr, ImmutableArray<PlannedIntervention> interventions)
    {
        var before = new SortedSet<double>();
        for (var year = 0; year < horizonYr; year++)
        {
            before.Add(year);
        }

        before.Add(horizonYr);
        var yearly = before.ToHashSet();
        foreach (var intervention in interventions)
        {
            before.Add(intervention.AtYr);
        }

        var start = interventions.IsEmpty ? double.PositiveInfinity : interventions[0].AtYr;
        var times = new List<double>();
        var after = new List<bool>();
        var places = new List<int>();
        foreach (var time in before)
        {
            if (yearly.Contains(time))
            {
                places.Add(times.Count);
            }

            times.Add(time);
            after.Add(time > start);
            if (time == start)
            {
                times.Add(time);
                after.Add(true);
            }
        }

        return new([.. times], [.. after], [.. places]);
    }
}
