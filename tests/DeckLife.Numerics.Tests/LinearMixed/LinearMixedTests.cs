using DeckLife.Numerics.LinearMixed;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.LinearMixed;

public class LinearMixedTests
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void BivariateRandomEffects_EqualErrors_IsSampleCovarianceLessError(bool restricted)
    {
        // With V = v I the likelihood is that of J bivariate normals with covariance Σ + v I: the maximum is the sample covariance, divisor
        // J - 1 restricted and J full, less v I, where that is a covariance.
        const int Groups = 9;
        const double Variance = 0.01;
        var y = Simulated(Groups);
        var size = 2 * Groups;
        var v = new double[size * size];
        for (var i = 0; i < size; i++)
        {
            v[(i * size) + i] = Variance;
        }

        var fit = BivariateRandomEffects.Fit(y, v, restricted)!;
        var (ss, sd, dd) = Moments(y, restricted ? Groups - 1 : Groups);
        Assert.True(fit.Converged);
        Assert.Equal(Math.Sqrt(ss - Variance), fit.BetweenSd.First, 1e-7);
        Assert.Equal(Math.Sqrt(dd - Variance), fit.BetweenSd.Second, 1e-7);
        Assert.Equal(sd / Math.Sqrt((ss - Variance) * (dd - Variance)), fit.Correlation, 1e-6);
        Assert.Equal(ss / Groups, fit.MeanCovariance.First, 1e-8);
        Assert.False(fit.IsSingular);
    }

    [Fact]
    public void BivariateRandomEffects_ErrorsLargerThanScatter_IsAtItsEdge()
    {
        var y = Simulated(6);
        var v = new double[144];
        for (var i = 0; i < 12; i++)
        {
            v[(i * 12) + i] = 10;
        }

        var fit = BivariateRandomEffects.Fit(y, v, true)!;
        Assert.True(fit.IsSingular);
        Assert.Equal(0, fit.BetweenSd.First, 1e-3);
        // No spread between groups: the mean's variance is v/J.
        Assert.Equal(10.0 / 6, fit.MeanCovariance.First, 1e-5);
    }

    [Fact]
    public void BivariateRandomEffects_CovarianceNotPositive_IsNull() =>
        Assert.Null(BivariateRandomEffects.Fit([1, 2, 3, 4], new double[16], true));

    [Fact]
    public void LinearMixedModel_BalancedDesign_IsMomentsOfGroupFits()
    {
        // Groups with one design Z = X: restricted maximum likelihood is σ² pooled within groups, Σ + σ² (ZᵀZ)⁻¹ the sample covariance of the
        // groups' own least-squares fits (Pinheiro and Bates 2000, section 2.2; balanced case).
        const int Groups = 7;
        const int Count = 5;
        var random = new RandomStream(8, "mixed", 0);
        double[] z = [.. Enumerable.Range(0, Count).SelectMany(i => new[] { 1.0, i - 2.0 })];
        var groups = new LinearMixedGroup[Groups];
        var own = new double[2 * Groups];
        double within = 0;
        for (var j = 0; j < Groups; j++)
        {
            var a = 3 + random.NextNormal();
            var b = 1 + (0.7 * random.NextNormal());
            double[] y =
            [
                .. Enumerable
                    .Range(0, Count)
                    .Select(i => a + (b * (i - 2.0)) + (0.5 * random.NextNormal())),
            ];
            groups[j] = new LinearMixedGroup(y, z, z);
            own[2 * j] = y.Average();
            own[(2 * j) + 1] = y.Select((v, i) => v * (i - 2.0)).Sum() / 10;
            within += y.Select((v, i) => v - own[2 * j] - (own[(2 * j) + 1] * (i - 2.0)))
                .Sum(r => r * r);
        }

        var fit = LinearMixedModel.Fit(groups, restricted: true)!;
        var variance = within / (Groups * (Count - 2));
        var (ss, sd, dd) = Moments(own, Groups - 1);
        Assert.True(fit.Converged);
        Assert.Equal(Math.Sqrt(variance), fit.ResidualSd, 1e-6);
        Assert.Equal(ss - (variance / Count), fit.RandomCovariance.First, 1e-6);
        Assert.Equal(sd, fit.RandomCovariance.Both, 1e-6);
        Assert.Equal(dd - (variance / 10), fit.RandomCovariance.Second, 1e-6);
    }

    private static double[] Simulated(int groups)
    {
        var random = new RandomStream(5, "bivariate", 0);
        var y = new double[2 * groups];
        for (var j = 0; j < groups; j++)
        {
            var a = random.NextNormal();
            y[2 * j] = 2 + (0.5 * a);
            y[(2 * j) + 1] = 3 + (0.3 * a) + (0.4 * random.NextNormal());
        }

        return y;
    }

    private static (double First, double Both, double Second) Moments(double[] y, int divisor)
    {
        var groups = y.Length / 2;
        double a = 0;
        double b = 0;
        for (var j = 0; j < groups; j++)
        {
            a += y[2 * j] / groups;
            b += y[(2 * j) + 1] / groups;
        }

        double ss = 0;
        double sd = 0;
        double dd = 0;
        for (var j = 0; j < groups; j++)
        {
            ss += (y[2 * j] - a) * (y[2 * j] - a) / divisor;
            sd += (y[2 * j] - a) * (y[(2 * j) + 1] - b) / divisor;
            dd += (y[(2 * j) + 1] - b) * (y[(2 * j) + 1] - b) / divisor;
        }

        return (ss, sd, dd);
    }
}
