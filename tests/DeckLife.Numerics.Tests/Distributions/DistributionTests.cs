using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.Distributions;

public class DistributionTests
{
    public static TheoryData<string> Names => [.. Laws.Keys];

    private static readonly Dictionary<string, Distribution> Laws = new()
    {
        ["normal"] = new NormalDistribution(50, 10),
        ["lognormal"] = LognormalDistribution.FromMeanAndStandardDeviation(0.05, 0.025),
        ["gamma"] = GammaDistribution.FromMeanAndStandardDeviation(6, 3),
        ["gamma, steep"] = GammaDistribution.FromShapeAndScale(0.3, 2),
        ["beta"] = BetaDistribution.FromMeanAndStandardDeviation(0.6, 0.15, 0.2, 2),
        ["weibull"] = WeibullDistribution.FromMeanAndStandardDeviation(25, 12),
        ["gumbel"] = GumbelDistribution.FromMeanAndStandardDeviation(1000, 200),
        ["triangular"] = new TriangularDistribution(1, 2, 5),
        ["uniform"] = UniformDistribution.FromMeanAndStandardDeviation(4, 1),
        ["truncated normal"] = new TruncatedDistribution(new NormalDistribution(50, 10), 25, 60),
        ["far tail"] = new TruncatedDistribution(
            new NormalDistribution(0, 1),
            6,
            double.PositiveInfinity
        ),
        ["far tail below"] = new TruncatedDistribution(
            new NormalDistribution(0, 1),
            double.NegativeInfinity,
            -6
        ),
        ["empirical"] = new EmpiricalDistribution([3, 1, 4, 1, 5, 9, 2, 6]),
    };

    // Out and back through either tail: the tails are computed apart from the quantiles.
    [Theory]
    [MemberData(nameof(Names))]
    public void Quantiles_OutAndBack_GiveTheProbability(string name)
    {
        var law = Laws[name];
        foreach (var p in new[] { 1e-10, 1e-5, 0.01, 0.2, 0.499 })
        {
            // An empirical law has a step at its two equal smallest values; below it no probability comes back.
            if (name != "empirical" || p > 0.15)
            {
                Assert.Equal(1, law.LowerTail(law.Quantile(p)) / p, 1e-9 / Math.Sqrt(p) + 1e-9);
            }

            Assert.Equal(
                1,
                law.UpperTail(law.QuantileOfExceedance(p)) / p,
                1e-9 / Math.Sqrt(p) + 1e-9
            );
        }

        foreach (var z in new[] { -5.0, -1.0, -0.3, 0.3, 1.0, 5.0 })
        {
            if (name != "empirical" || z > -1)
            {
                Assert.Equal(z, law.ToStandardNormal(law.FromStandardNormal(z)), 2e-6);
            }
        }
    }

    // Mean and spread by integrating the quantile: ∫ Q(p) dp on a fine midpoint grid.
    [Theory]
    [MemberData(nameof(Names))]
    public void Moments_AgainstTheIntegratedQuantile_Agree(string name)
    {
        var law = Laws[name];
        const int N = 200_000;
        double sum = 0,
            squares = 0;
        var origin = law.Quantile(0.5);
        for (var i = 0; i < N; i++)
        {
            var x = law.Quantile((i + 0.5) / N) - origin;
            sum += x;
            squares += x * x;
        }

        var mean = origin + (sum / N);
        Assert.Equal(mean, law.Mean, 2e-4 * law.StandardDeviation);
        var deviation = Math.Sqrt((squares / N) - (sum / N * (sum / N)));
        // The steep tails lose some of their square beyond the grid's last points.
        Assert.Equal(1, law.StandardDeviation / deviation, 3e-3);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Density_AgainstTheTailsDifference_Agrees(string name)
    {
        var law = Laws[name];
        foreach (var p in new[] { 0.21, 0.47, 0.72, 0.93 })
        {
            var x = law.Quantile(p);
            var h = 1e-5 * law.StandardDeviation;
            var slope = (law.LowerTail(x + h) - law.LowerTail(x - h)) / (2 * h);
            Assert.Equal(1, law.Density(x) / slope, 1e-5);
        }
    }

    [Fact]
    public void Lognormal_MeanAndDeviationOfTheVariable_AreThoseOfTheSample()
    {
        // The slip of taking the mean as the median would give 0.0559.
        var law = LognormalDistribution.FromMeanAndStandardDeviation(0.05, 0.025);
        var stream = new RandomStream(11, "sample");
        var values = new double[1_000_000];
        stream.FillNormal(values);
        law.FromStandardNormal(values, values);
        var mean = values.Average();
        // Standard error 0.000025: four of them.
        Assert.Equal(0.050, mean, 1e-4);
        Assert.Equal(0.025, Math.Sqrt(values.Average(v => (v - mean) * (v - mean))), 2e-4);
    }

    [Fact]
    public void FromStandardNormal_ManyAtOnce_AreTheSinglesToRounding()
    {
        foreach (var law in Laws.Values)
        {
            double[] z = [-3, -1, -0.1, 0, 0.1, 1, 3];
            var x = new double[z.Length];
            law.FromStandardNormal(z, x);
            for (var i = 0; i < z.Length; i++)
            {
                Assert.Equal(law.FromStandardNormal(z[i]), x[i], 1e-14 * Math.Abs(x[i]));
            }
        }
    }

    [Fact]
    public void Make_ImpossibleParameters_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new NormalDistribution(1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new NormalDistribution(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            LognormalDistribution.FromMeanAndStandardDeviation(-1, 1)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            BetaDistribution.FromMeanAndStandardDeviation(0.5, 0.6, 0, 1)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => new TriangularDistribution(0, 3, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => new UniformDistribution(1, 1));
        Assert.Throws<ArgumentException>(() => new EmpiricalDistribution([2, 2, 2]));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new TruncatedDistribution(new UniformDistribution(0, 1), 2, 3)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => Laws["normal"].Quantile(1));
    }
}
