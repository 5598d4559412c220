using System.Diagnostics;

namespace DeckLife.Benchmarks;

/// <summary>Adds up wall time, processor time and memory of the phases that DeckLife names while it works.</summary>
internal sealed class PhaseTimes : IDisposable
{
    private readonly ActivityListener listener;
    private readonly Lock gate = new();
    private readonly OrderedDictionary<string, Sum> sums = [];

    /// <summary>Begins to listen.</summary>
    public PhaseTimes()
    {
        listener = new()
        {
            ShouldListenTo = s => s.Name == "DeckLife",
            Sample = (ref ActivityCreationOptions<ActivityContext> _) =>
                ActivitySamplingResult.AllData,
            ActivityStarted = Start,
            ActivityStopped = Stop,
        };
        ActivitySource.AddActivityListener(listener);
    }

    /// <summary>Runs an action as a phase of its own.</summary>
    public T Time<T>(string name, Func<T> action)
    {
        var before = Reading.Now();
        var entry = Entry(name);
        var result = action();
        Add(entry, before);
        return result;
    }

    /// <summary>Prints a line a phase, in the order of their first starts, those within another indented.</summary>
    public void Print(TextWriter output)
    {
        output.WriteLine($"{"phase", -44}{"times", 6}{"wall s", 9}{"cpu s", 9}{"GB", 8}");
        foreach (var (name, sum) in sums)
        {
            output.WriteLine(
                FormattableString.Invariant(
                    $"{name, -44}{sum.Times, 6}{sum.Spent.WallS, 9:F2}{sum.Spent.CpuS, 9:F2}{sum.Spent.Bytes / 1e9, 8:F2}"
                )
            );
        }
    }

    /// <summary>Prints what the collector did.</summary>
    public static void PrintCollections(TextWriter output) =>
        output.WriteLine(
            FormattableString.Invariant(
                $"collections: {GC.CollectionCount(0)}, of them {GC.CollectionCount(1)} and {GC.CollectionCount(2)} of older generations; paused {GC.GetTotalPauseDuration().TotalSeconds:F2} s in all"
            )
        );

    /// <inheritdoc/>
    public void Dispose() => listener.Dispose();

    private void Start(Activity activity)
    {
        activity.SetCustomProperty("before", Reading.Now());
        _ = Entry(NameOf(activity));
    }

    private void Stop(Activity activity) =>
        Add(Entry(NameOf(activity)), (Reading)activity.GetCustomProperty("before")!);

    private static string NameOf(Activity activity)
    {
        var depth = 0;
        for (var above = activity.Parent; above is not null; above = above.Parent)
        {
            depth++;
        }

        return new string(' ', 2 * (depth + 1)) + activity.OperationName;
    }

    private Sum Entry(string name)
    {
        lock (gate)
        {
            if (!sums.TryGetValue(name, out var sum))
            {
                sums.Add(name, sum = new());
            }

            return sum;
        }
    }

    private void Add(Sum sum, Reading before)
    {
        var now = Reading.Now();
        lock (gate)
        {
            sum.Times++;
            sum.Spent = new(
                sum.Spent.WallS + now.WallS - before.WallS,
                sum.Spent.CpuS + now.CpuS - before.CpuS,
                sum.Spent.Bytes + now.Bytes - before.Bytes
            );
        }
    }

    private readonly record struct Reading(double WallS, double CpuS, long Bytes)
    {
        public static Reading Now() =>
            new(
                Stopwatch.GetTimestamp() / (double)Stopwatch.Frequency,
                Environment.CpuUsage.TotalTime.TotalSeconds,
                GC.GetTotalAllocatedBytes()
            );
    }

    private sealed class Sum
    {
        public int Times { get; set; }

        public Reading Spent { get; set; }
    }
}
