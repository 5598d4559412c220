using DeckLife.Decisions;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Tests.Economics;

public class PreposteriorSimulationTests
{
    private const int Draws = 2000;

    // Two strategies whose difference is normal: cost 0, and cost θ ~ N(mean, 1).
    private static readonly double[] States =
    [
        .. Enumerable.Range(0, Draws).Select(k => NormalQuantile.At((k + 0.5) / Draws)),
    ];

    [Theory]
    [InlineData(0.2, 1)]
    [InlineData(0.2, 4)]
    [InlineData(-0.5, 2)]
    [InlineData(1.0, 9)]
    public void Run_NormalDifferenceAndNormalData_IsTheUnitNormalLoss(double mean, int count)
    {
        // Raiffa and Schlaifer (1961): τ² = 1/(1 + 1/n) for data of standard deviation 1; value τ φ(u) − |mean| Φ(−u), u = |mean|/τ.
        var tau = Math.Sqrt(1 / (1 + (1.0 / count)));
        var u = Math.Abs(mean) / tau;
        var expected =
            (tau * Math.Exp(-u * u / 2) / Math.Sqrt(2 * Math.PI))
            - (Math.Abs(mean) * NormalQuantile.Probability(-u));
        var costs = Costs(mean);

        var (value, error, change, _) = PreposteriorSimulation.Run(
            costs,
            Enumerable.Range(0, Draws).ToArray(),
            new NormalData(mean, count)
        );

        Assert.Equal(expected, value, 3 * error);
        Assert.InRange(error, 1e-3, 0.03);
        // The data change the decision where the learned mean has the other sign.
        Assert.Equal(NormalQuantile.Probability(-u), change, 0.04);
    }

    [Fact]
    public void Run_DataThatSayNothing_AreWorthNothing()
    {
        var (value, _, change, effective) = PreposteriorSimulation.Run(
            Costs(0.3),
            Enumerable.Range(0, Draws).ToArray(),
            new NormalData(0.3, 0)
        );

        Assert.Equal(0, value);
        Assert.Equal(0, change);
        Assert.Equal(Draws - 1, effective, 1e-6);
    }

    [Fact]
    public void Run_DominatedStrategy_IsNeverChosenAndDataAreWorthNothing()
    {
        var costs = Costs(0.3);
        var (value, _, change, _) = PreposteriorSimulation.Run(
            [costs[1], costs[1].Select(c => c + 1).ToArray()],
            Enumerable.Range(0, Draws).ToArray(),
            new NormalData(0.3, 4)
        );

        Assert.Equal(0, value);
        Assert.Equal(0, change);
    }

    [Fact]
    public void Run_EveryDrawTheSame_LearnsNothingFromItself()
    {
        // One draw taken many times: no other draw is there to learn from.
        var (value, _, change, effective) = PreposteriorSimulation.Run(
            [
                [1, 1, 1],
                [2, 2, 2],
            ],
            [5, 5, 5],
            new NormalData(0, 4)
        );

        Assert.Equal((0, 0, 0), (value, change, effective));
    }

    [Fact]
    public void Run_AnyNumberOfThreads_SameBits()
    {
        var indices = Enumerable.Range(0, Draws).ToArray();
        var one = PreposteriorSimulation.Run(Costs(0.2), indices, new NormalData(0.2, 3), 1);
        var four = PreposteriorSimulation.Run(Costs(0.2), indices, new NormalData(0.2, 3), 4);

        Assert.Equal(one, four);
    }

    private static double[][] Costs(double mean) =>
        [new double[Draws], [.. States.Select(s => mean + s)]];

    // The mean of n measurements of θ, each with standard deviation 1.
    private sealed class NormalData(double mean, int count) : ISampleModel
    {
        public int Length => 1;

        public void Simulate(int draw, Span<double> data) =>
            data[0] =
                mean
                + States[draw]
                + (
                    count == 0
                        ? 0
                        : new RandomStream(3, "test data", (ulong)draw).NextNormal()
                            / Math.Sqrt(count)
                );

        public double LogDensity(ReadOnlySpan<double> data, int draw)
        {
            var off = data[0] - mean - States[draw];
            return -0.5 * count * off * off;
        }
    }
}
