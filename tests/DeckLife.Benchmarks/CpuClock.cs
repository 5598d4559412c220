using System.Diagnostics;

namespace DeckLife.Benchmarks;

/// <summary>Times work by the processor time of the process, which other processes on the machine disturb little, or by the wall.</summary>
internal static class CpuClock
{
    // Seconds of each of the measurements; DECKLIFE_BENCHMARK_SECONDS shortens them for a trial run.
    private static readonly double Length = double.TryParse(
        Environment.GetEnvironmentVariable("DECKLIFE_BENCHMARK_SECONDS"),
        System.Globalization.NumberStyles.Float,
        System.Globalization.CultureInfo.InvariantCulture,
        out var seconds
    )
        ? seconds
        : 0.4;

    /// <summary>Seconds of processor time for one run of an action, after a warm-up; the median of five measurements.</summary>
    public static double Seconds(Action action) => Measure(action, Processor);

    /// <summary>Seconds by the wall for one run; the least of seven measurements.</summary>
    public static double WallSeconds(Action action)
    {
        WarmUp(action);
        var least = double.PositiveInfinity;
        for (var i = 0; i < 7; i++)
        {
            var watch = Stopwatch.StartNew();
            action();
            least = Math.Min(least, watch.Elapsed.TotalSeconds);
        }

        return least;
    }

    /// <summary>Seconds of processor time for one run, measured once over at least so many seconds.</summary>
    public static double Once(Action action, double length)
    {
        var start = Processor();
        var runs = 0;
        double spent;
        do
        {
            action();
            runs++;
            spent = Processor() - start;
        } while (spent < length);

        return spent / runs;
    }

    // To the microsecond; the times of Process come in hundredths of a second.
    private static double Processor() => Environment.CpuUsage.TotalTime.TotalSeconds;

    private static double Measure(Action action, Func<double> clock)
    {
        WarmUp(action);
        var found = new double[5];
        for (var i = 0; i < found.Length; i++)
        {
            var start = clock();
            var runs = 0;
            double spent;
            do
            {
                action();
                runs++;
                spent = clock() - start;
            } while (spent < Length);

            found[i] = spent / runs;
        }

        Array.Sort(found);
        return found[2];
    }

    private static void WarmUp(Action action)
    {
        var watch = Stopwatch.StartNew();
        var start = Processor();
        do
        {
            action();
        } while (Processor() - start < 2.5 * Length && watch.Elapsed.TotalSeconds < 20);
    }
}
