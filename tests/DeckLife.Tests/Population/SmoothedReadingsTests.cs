using DeckLife.Population;
using Xunit;

namespace DeckLife.Tests.Population;

public class SmoothedReadingsTests
{
    // Skewed, and with a gap.
    private static readonly double[] Values =
    [
        .. Enumerable.Range(0, 40).Select(i => i < 30 ? 40 + (0.5 * i) : 70 + i),
    ];

    private readonly SmoothedReadings readings = new(Values);

    [Fact]
    public void Scores_OfReadings_HaveMeanZeroAndUnitVariance()
    {
        double[] scores =
        [
            .. Enumerable.Range(0, 4000).Select(i => readings.Quantile((i + 0.5) / 4000)),
        ];

        // The ends beyond 1e-5 are cut off, and the sample's variance is over n − 1: within 1 in 40.
        Assert.Equal(0, scores.Average(), 2e-3);
        Assert.Equal(1, scores.Average(z => z * z), 1.0 / 39);
    }

    [Fact]
    public void Cumulative_OfAnyScore_IsTheMixtureOfKernels()
    {
        // Silverman's width by hand: 0.9 min(1, IQR/1.34) n^(−1/5), the kernels drawn in by √(1 + h²).
        var mean = Values.Average();
        var sd = Math.Sqrt(Values.Sum(v => (v - mean) * (v - mean)) / 39);
        double[] scores = [.. Values.Select(v => (v - mean) / sd)];
        double At(double share)
        {
            var place = share * 39;
            var k = (int)place;
            return scores[k] + ((place - k) * (scores[k + 1] - scores[k]));
        }

        var width = 0.9 * Math.Min(1, (At(0.75) - At(0.25)) / 1.34) * Math.Pow(40, -0.2);
        double Expected(double z) =>
            scores.Average(s =>
                PointDistribution.StandardNormalCumulative(
                    (z - (s / Math.Sqrt(1 + (width * width)))) / width
                )
            );

        foreach (var z in new[] { -1.5, -0.7, 0, 0.4, 1.3, 2.2 })
        {
            // A table of 1025 rows, linear between.
            Assert.Equal(Expected(z), readings.Cumulative(z), 1.0 / 1024);
        }
    }

    [Fact]
    public void Quantile_AndCumulative_UndoEachOtherWithinTheEnds()
    {
        for (var i = 0; i <= 2048; i++)
        {
            Assert.Equal(i / 2048.0, readings.Cumulative(readings.Quantile(i / 2048.0)), 1e-9);
        }

        Assert.Equal(readings.Quantile(0), readings.Quantile(-1));
        Assert.Equal(readings.Quantile(1), readings.Quantile(2));
        Assert.Equal(0, readings.Cumulative(-50));
        Assert.Equal(1, readings.Cumulative(50));
    }

    [Fact]
    public void Width_HalfOfTheReadingsEqual_IsStillPositive()
    {
        // No distance between the quartiles: the width falls back on the deviation.
        var flat = new SmoothedReadings([
            .. Enumerable.Range(0, 40).Select(i => i is > 4 and < 35 ? 50.0 : 40 + i),
        ]);

        Assert.True(flat.Quantile(0.75) - flat.Quantile(0.25) > 0.1);
    }
}
