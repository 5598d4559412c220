using DeckLife.Numerics.Kernels;

namespace DeckLife.Benchmarks;

/// <summary>Bytes that the batched solver allocates against samples, cells times steps, years and layers, one thread.</summary>
/// <remarks>
/// Lines of decklife|memory,what,size|bytes of working memory of a first run|bytes of a run into the same histories|bytes of results. Working memory
/// is what a new solver allocates less what its second run does; the results grow with samples times times asked, and must.
/// </remarks>
internal static class MemoryFigures
{
    /// <summary>Prints all lines.</summary>
    public static void Print()
    {
        foreach (var count in new[] { 512, 2048, 8192, 32768 })
        {
            Line("samples", count, BenchmarkCases.Sections(count), BenchmarkCases.Years, 0);
        }

        var sections = BenchmarkCases.Sections(4096);
        for (var level = 0; level <= 4; level++)
        {
            Line("cells times steps", PeersMode.Work[level], sections, BenchmarkCases.Years, level);
        }

        foreach (var years in new[] { 15, 30, 60, 120 })
        {
            double[] times = [.. Enumerable.Range(1, years).Select(i => (double)i)];
            Line("years", years, sections, times, 0);
        }

        for (var layers = 1; layers <= 4; layers++)
        {
            Line("layers", layers, BenchmarkCases.Stack(layers, 4096), BenchmarkCases.Years, 0);
        }
    }

    private static void Line(
        string what,
        int size,
        SectionSamples sections,
        double[] times,
        int level
    )
    {
        var options = new SectionSolverOptions
        {
            Threads = 1,
            FirstLevel = level,
            LastLevel = level,
        };
        var target = new BatchedOverlaySolver(options).Solve(sections, times);
        var fresh = new BatchedOverlaySolver(options);
        var first = Allocated(() => fresh.Solve(sections, target));
        var again = Allocated(() => fresh.Solve(sections, target));
        var results = Allocated(() => fresh.Solve(sections, times)) - again;
        Console.WriteLine(
            FormattableString.Invariant(
                $"decklife|memory,{what},{size}|{first - again}|{again}|{results}"
            )
        );
    }

    private static long Allocated(Action action)
    {
        var before = GC.GetTotalAllocatedBytes(precise: true);
        action();
        return GC.GetTotalAllocatedBytes(precise: true) - before;
    }
}
