using DeckLife.Numerics.ImportanceSampling;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.ImportanceSampling;

public class ParetoSmoothedWeightsTests
{
    [Theory]
    [InlineData(0.2)]
    [InlineData(0.5)]
    [InlineData(0.9)]
    public void From_ParetoWeights_FindsTheTailsShape(double shape)
    {
        // w = U^-k has a Pareto tail of shape k. 40 000 draws, tail of 600: the estimate scatters by (1 + k)/√600.
        var stream = new RandomStream(3, "pareto weights");
        var logs = new double[40_000];
        for (var i = 0; i < logs.Length; i++)
        {
            logs[i] = -shape * Math.Log(stream.NextUniform());
        }

        var weights = ParetoSmoothedWeights.From(logs);

        Assert.Equal(shape, weights.Shape, 3 * (1 + shape) / Math.Sqrt(600));
        Assert.Equal(1, weights.Weights.Sum(), 1e-12);
    }

    [Fact]
    public void From_EqualWeights_KeepsAllDraws()
    {
        var weights = ParetoSmoothedWeights.From(new double[100]);

        Assert.Equal(100, weights.EffectiveSampleSize, 1e-9);
        Assert.Equal(0, weights.Shape);
        Assert.Equal(Enumerable.Range(0, 100), weights.Resample(100, 0.5));
    }

    [Fact]
    public void From_NormalTargetAndProposal_GivesTheTargetsMoments()
    {
        // Target N(1, 0.5²) by draws from N(0, 1): the mean of the weighted draws is 1, their deviation 0.5.
        var stream = new RandomStream(4, "normal proposal");
        var x = new double[50_000];
        stream.FillNormal(x);
        var logs = x.Select(v => -0.5 * Math.Pow((v - 1) / 0.5, 2) + 0.5 * v * v).ToArray();

        var weights = ParetoSmoothedWeights.From(logs);
        var mean = x.Select((v, i) => v * weights.Weights[i]).Sum();
        var variance = x.Select((v, i) => (v - mean) * (v - mean) * weights.Weights[i]).Sum();

        Assert.True(weights.Shape < 0.5);
        Assert.Equal(1, mean, 0.01);
        Assert.Equal(0.5, Math.Sqrt(variance), 0.01);
    }

    [Fact]
    public void Resample_Weights_CountsAreTheirShares()
    {
        var logs = Enumerable.Range(0, 100).Select(i => i < 50 ? 0 : Math.Log(3)).ToArray();

        var counts = ParetoSmoothedWeights
            .From(logs)
            .Resample(2000, 0.3)
            .GroupBy(i => i)
            .ToDictionary(g => g.Key, g => g.Count());

        // 50 weights of 1 and 50 of 3: 10 and 30 of 2000, one more or less by the comb.
        Assert.InRange(counts[7], 9, 11);
        Assert.InRange(counts[70], 29, 31);
    }

    [Fact]
    public void From_NotANumber_IsRefused() =>
        Assert.Throws<ArgumentException>(() =>
            ParetoSmoothedWeights.From([.. new double[30], double.NaN])
        );
}
