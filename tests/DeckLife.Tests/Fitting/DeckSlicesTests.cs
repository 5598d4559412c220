using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class DeckSlicesTests
{
    // Surface slices, thick and thin ones, gaps, a point, and depths that hardly feel the surface.
    private static readonly CoreProfile[] Mixed =
    [
        Cores.HalfInch(25, [9, 6, 3, 1.5, 0.4, 0.2], [false, false, false, false, true, true]),
        Cores.Slices(3, [0, 2, 10, 40, 150], [2, 4, 30, 40, 200], [8, 7, 2, 0.6, 0.1]),
        Cores.Slices(60, [0.5, 5], [0.6, 90], [8, 7]),
    ];

    [Theory]
    [InlineData(2000)]
    public void TabulatedShares_RandomDiffusion_WithinStatedError(int cases)
    {
        var slices = new DeckSlices(Mixed, SliceWeights.Constant);
        var random = new RandomStream(7, "tabulated shares");
        var worst = 0.0;
        for (var k = 0; k < cases; k++)
        {
            var core = k % Mixed.Length;
            var exact = new double[Mixed[core].Slices.Length];
            var table = new double[exact.Length];
            // 0.02 to 22 000 mm²/yr: beyond both ends of the table too.
            var lnDiffusion = -4 + (14 * random.NextUniform());
            slices.Shares(core, lnDiffusion, exact);
            slices.TabulatedShares(core, lnDiffusion, table);
            worst = Math.Max(worst, exact.Zip(table, (a, b) => Math.Abs(a - b)).Max());
        }

        Assert.InRange(worst, 1e-14, 1e-8);
    }

    [Theory]
    [InlineData(-3)]
    [InlineData(8.99999999)]
    [InlineData(9)]
    [InlineData(double.NaN)]
    public void TabulatedShares_AtItsEnds_AreTheShares(double lnDiffusion)
    {
        var slices = new DeckSlices(Mixed, SliceWeights.Constant);
        for (var core = 0; core < Mixed.Length; core++)
        {
            var exact = new double[Mixed[core].Slices.Length];
            var table = new double[exact.Length];
            slices.Shares(core, lnDiffusion, exact);
            slices.TabulatedShares(core, lnDiffusion, table);
            Assert.All(exact.Zip(table), pair => Assert.Equal(pair.First, pair.Second, 1e-8));
        }
    }

    [Fact]
    public void SquaresOfBackground_AnyBackground_EqualTheSumOfSquares()
    {
        var slices = new DeckSlices(Mixed, SliceWeights.Constant);
        var share = new double[6];
        slices.Shares(0, Math.Log(30), share);
        var (constant, linear, square) = slices.SquaresOfBackground(0, 11, share);
        foreach (var background in (double[])[0, 0.3, 2])
        {
            var direct = 0.0;
            for (var i = 0; i < 4; i++)
            {
                var mean = background + ((11 - background) * share[i]);
                direct += (slices.Content[i] - mean) * (slices.Content[i] - mean);
            }

            Assert.Equal(direct, slices.MeasuredSquares(0, 11, background, share), 1e-12);
            Assert.Equal(
                direct,
                constant + (linear * background) + (square * background * background),
                1e-12
            );
        }
    }

    [Theory]
    [InlineData(SliceWeights.Constant)]
    [InlineData(SliceWeights.Relative)]
    public void LogLikelihood_MeasuredAndBelowDetection_IsTheDefinition(SliceWeights weights)
    {
        // Normal densities of what was measured, Φ((limit - mean)/s.d.) of what was not; constants left out.
        var slices = new DeckSlices(Mixed, weights);
        var share = new double[6];
        slices.Shares(0, Math.Log(30), share);
        const double Error = 0.2;
        const double Floor = 0.05;
        var expected = 0.0;
        for (var i = 0; i < 6; i++)
        {
            var mean = 0.3 + (10.7 * share[i]);
            var sd =
                weights == SliceWeights.Relative
                    ? Math.Sqrt((Error * Error * mean * mean) + (Floor * Floor))
                    : Error;
            var z = (slices.Content[i] - mean) / sd;
            expected +=
                i < 4
                    ? (-0.5 * z * z) - (weights == SliceWeights.Relative ? Math.Log(sd) : 0)
                    : Math.Log(MathNet.Numerics.Distributions.Normal.CDF(0, 1, z));
        }

        Assert.Equal(expected, slices.LogLikelihood(0, 11, 0.3, Error, Floor, share), 1e-9);
    }
}
