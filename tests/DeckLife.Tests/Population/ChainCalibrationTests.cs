using System.Globalization;
using DeckLife.Population;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Tests.Population;

public class ChainCalibrationTests(ITestOutputHelper log)
{
    [Fact]
    public void Trial()
    {
        var n = int.Parse(
            Environment.GetEnvironmentVariable("TRIAL") ?? "4",
            CultureInfo.InvariantCulture
        );
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var o = ChainCalibration.FromPriors(
            DeckTruth.Stated with
            {
                Surveys = new()
                {
                    ModelDiscrepancySd = double.Parse(
                        Environment.GetEnvironmentVariable("TRIALD") ?? "0.2",
                        CultureInfo.InvariantCulture
                    ),
                },
            },
            n,
            5
        );
        var text = FormattableString.Invariant(
            $"{o.Length} of {n}; inside {string.Join(' ', Enumerable.Range(0, 4).Select(y => o.Count(x => x.Inside[y])))}; below {string.Join(' ', Enumerable.Range(0, 4).Select(y => o.Count(x => x.Below[y])))}; limit {o.Count(x => x.LimitInside)}; width {o.Average(x => x.Width):F3}; miss {o.Average(x => x.Miss):F4}; learned {o.Count(x => x.IsLearned)}; flagged {o.Count(x => x.IsFlagged)}; {watch.Elapsed.TotalSeconds:F0} s"
        );
        log.WriteLine(text);
        File.WriteAllText("/tmp/trial.txt", text);
    }
}
