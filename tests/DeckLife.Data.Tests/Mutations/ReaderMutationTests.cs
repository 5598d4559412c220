using System.Diagnostics;
using System.Globalization;
using DeckLife.Diagnostics;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Data.Tests.Mutations;

/// <summary>
/// Random changes to every kind of input end in a result or in listed problems: no exception, no hang, no memory without end. A share runs here;
/// tests/studies/mutate-inputs.sh runs a million (DECKLIFE_MUTATIONS sets the number, DECKLIFE_MUTATION_SEED the first seed).
/// </summary>
public class ReaderMutationTests(ITestOutputHelper log)
{
    private const int Share = 3000;
    private const long MostBytes = 1L << 30;
    private static readonly TimeSpan Slow = TimeSpan.FromSeconds(10);

    [Fact]
    public void Read_MutatedInputs_ResultOrListedProblems()
    {
        var count = Setting("DECKLIFE_MUTATIONS", Share);
        var first = Setting("DECKLIFE_MUTATION_SEED", 1);
        using var targets = new FuzzTargets();
        Assert.Equal(1000, targets.All.Sum(t => t.Weight));
        var total = 0L;
        foreach (var target in targets.All)
        {
            var inputs = (int)((long)count * target.Weight / 1000);
            var row = Run(target, first, inputs);
            total += inputs;
            log.WriteLine(row);
            // A long run is followed as it goes.
            Console.WriteLine(row);
        }

        var peak = Process.GetCurrentProcess().PeakWorkingSet64;
        var sum = string.Create(
            CultureInfo.InvariantCulture,
            $"| all | {total} | | | | | | largest memory of the process {peak >> 20} MB |"
        );
        log.WriteLine(sum);
        Console.WriteLine(sum);
        // In a short run the peak is that of the tests beside it; each input's own allocations are held in any run.
        Assert.True(count == Share || peak < MostBytes, $"{peak >> 20} MB");
    }

    private static string Run(FuzzTarget target, int first, int inputs)
    {
        var (usable, slowest, slowestSeed, largest) = (0, TimeSpan.Zero, 0, 0L);
        var codes = new HashSet<string>(StringComparer.Ordinal);
        // Processor time of the process, which does nothing else in a long run: the machine may be busy with other work.
        var all = Environment.CpuUsage.TotalTime;
        var current = 0;
        // What never ends can't be asserted on: the process ends, and says where.
        using var watchdog = new Timer(
            _ => Environment.FailFast($"{target.Name}, seed {current}: no end"),
            null,
            Timeout.Infinite,
            Timeout.Infinite
        );
        for (var seed = first; seed < first + inputs; seed++)
        {
            current = seed;
            var input = target.Mutate(seed, target.Originals[seed % target.Originals.Count]);
            watchdog.Change(60 * (int)Slow.TotalMilliseconds, Timeout.Infinite);
            var allocated = GC.GetAllocatedBytesForCurrentThread();
            var began = Environment.CpuUsage.TotalTime;
            try
            {
                var (has, problems) = target.Read(input);
                usable += has ? 1 : 0;
                if (problems is not null)
                {
                    Check(has, problems);
                    codes.UnionWith(problems.Select(p => p.Code));
                }
            }
            catch (Exception e)
            {
                throw new InvalidOperationException($"{target.Name}, seed {seed}", e);
            }

            largest = Math.Max(largest, GC.GetAllocatedBytesForCurrentThread() - allocated);
            Assert.True(largest < MostBytes, $"{target.Name}, seed {seed}: {largest >> 20} MB");
            var took = Environment.CpuUsage.TotalTime - began;
            if (took > slowest)
            {
                (slowest, slowestSeed) = (took, seed);
            }

            Assert.True(took < Slow, $"{target.Name}, seed {seed}: {took}");
        }

        // Both ends must occur, or the changes would be too tame or too wild to mean anything.
        Assert.InRange(usable, inputs > 100 ? 1 : 0, inputs);
        Assert.True(inputs < 100 || usable < inputs, target.Name);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"| {target.Name} | {inputs} | {usable} | {inputs - usable} | {codes.Count} | {slowest.TotalMilliseconds:0} (seed {slowestSeed}) | {largest / 1e6:0.0} | {inputs / (Environment.CpuUsage.TotalTime - all).TotalSeconds:0} a second |"
        );
    }

    private static void Check(bool hasResult, IReadOnlyCollection<Diagnostic> problems)
    {
        Assert.Equal(!hasResult, problems.Any(p => p.Severity == Severity.Error));
        Assert.All(
            problems,
            p =>
            {
                Assert.False(string.IsNullOrWhiteSpace(p.Text));
                // What is quoted of a hostile input stays short.
                Assert.True(p.Text.Length < 5000, p.Code);
            }
        );
    }

    private static int Setting(string name, int otherwise) =>
        int.TryParse(
            Environment.GetEnvironmentVariable(name),
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var value
        )
            ? value
            : otherwise;
}
