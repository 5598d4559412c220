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

    public static TheoryData<string> FamilyNames => [.. Families.Keys];

    private static Dictionary<string, Distribution> Families =>
        new(Laws)
        {
            ["gamma, narrow"] = GammaDistribution.FromMeanAndStandardDeviation(5, 0.02),
            ["gamma, nearly all at 0"] = GammaDistribution.FromShapeAndScale(0.02, 1),
            ["beta, two heaps"] = BetaDistribution.FromShapes(0.3, 0.05),
            ["beta, narrow"] = BetaDistribution.FromShapes(3e5, 2e6, -1, 3),
            ["cut gamma"] = new TruncatedDistribution(Laws["gamma"], 4, 7),
            ["cut Weibull, upper half"] = new TruncatedDistribution(Laws["weibull"], 40, 90),
        };

    // Tabulated quantiles hold 1e-10, the others rounding; the error counts beside the distance from a bound of the family, far out in either tail too.
    [Theory]
    [MemberData(nameof(FamilyNames))]
    public void ManyAtOnce_OfAnyFamily_AreTheSingles(string name)
    {
        var law = Families[name];
        double[] z =
        [
            .. Enumerable.Range(-80, 161).Select(i => i / 9.7),
            -37,
            -12,
            -8.25,
            0,
            8.25,
            12,
            37,
        ];
        double[] p =
        [
            1e-300,
            1e-15,
            1e-5,
            .. Enumerable.Range(1, 600).Select(i => i / 601.0),
            1 - 1e-5,
            1 - 1e-15,
        ];
        var ofScores = new double[z.Length];
        var ofProbabilities = new double[p.Length];
        law.FromStandardNormal(z, ofScores);
        law.FromUniform(p, ofProbabilities);
        var share =
            name.Contains("gamma", StringComparison.Ordinal)
            || name.Contains("beta", StringComparison.Ordinal)
                ? 2e-10
                : 1e-13;
        void Same(double expected, double found)
        {
            Assert.InRange(found, law.Lower, law.Upper);
            var distance = Math.Min(Math.Abs(expected - law.Lower), Math.Abs(law.Upper - expected));
            var isWhole = double.IsFinite(distance) && law is not TruncatedDistribution;
            var scale = isWhole ? distance : Math.Abs(expected) + 1;
            Assert.Equal(expected, found, (share * scale) + (1e-15 * Math.Abs(expected)) + 1e-307);
        }

        for (var i = 0; i < z.Length; i++)
        {
            Same(law.FromStandardNormal(z[i]), ofScores[i]);
        }

        for (var i = 0; i < p.Length; i++)
        {
            Same(law.Quantile(p[i]), ofProbabilities[i]);
        }

        law.FromUniform(p, p);
        Assert.Equal(ofProbabilities, p);
    }

    // Whatever the parameters: values in order and within the bounds, or a refusal that says which parameter; never NaN, never without end.
    [Fact]
    public void Quantiles_OfExtremeParameters_AreInOrderOrRefused()
    {
        double[] shapes = [1e-300, 1e-6, 0.001, 0.02, 0.5, 1, 50, 1e4, 1e6, 1e8, 1e10, 1e15, 1e300];
        double[] scales = [1e-300, 1, 1e300];
        Func<Distribution>[] makers =
        [
            .. shapes.SelectMany(k =>
                scales.Select<double, Func<Distribution>>(s =>
                    () => GammaDistribution.FromShapeAndScale(k, s)
                )
            ),
            .. shapes.SelectMany(k =>
                scales.Select<double, Func<Distribution>>(s =>
                    () => WeibullDistribution.FromShapeAndScale(k, s)
                )
            ),
            .. shapes.SelectMany(a =>
                shapes.Select<double, Func<Distribution>>(b =>
                    () => BetaDistribution.FromShapes(a, b, -3, 5)
                )
            ),
            .. scales.SelectMany(m =>
                scales.Select<double, Func<Distribution>>(s =>
                    () => GammaDistribution.FromMeanAndStandardDeviation(m, s)
                )
            ),
            .. scales.Select<double, Func<Distribution>>(s =>
                () => BetaDistribution.FromMeanAndStandardDeviation(0.5 * s, 0.1 * s, 0, s)
            ),
            () => BetaDistribution.FromMeanAndStandardDeviation(0.5, 1e-300, 0, 1),
        ];
        double[] tails = [1e-300, 1e-16, 1e-6, 0.01, 0.3, 0.49];
        var (made, refused) = (0, 0);
        foreach (var make in makers)
        {
            Distribution law;
            try
            {
                law = make();
            }
            catch (ArgumentOutOfRangeException refusal)
            {
                Assert.NotNull(refusal.ParamName);
                refused++;
                continue;
            }

            made++;
            double[] values =
            [
                .. tails.Select(law.Quantile),
                .. tails.Reverse().Select(law.QuantileOfExceedance),
            ];
            Assert.All(values, x => Assert.InRange(x, law.Lower, law.Upper));
            for (var i = 1; i < values.Length; i++)
            {
                Assert.True(
                    values[i] >= values[i - 1],
                    FormattableString.Invariant($"{law.Description}: {string.Join(" ", values)}")
                );
            }

            Assert.False(double.IsNaN(law.Mean) || double.IsNaN(law.StandardDeviation));
            Assert.False(double.IsNaN(law.Density(values[5])));
        }

        Assert.InRange(made, 80, makers.Length);
        Assert.InRange(refused, 80, makers.Length);
    }

    // Limits that are known in closed form: the first term of the series for steep laws (DLMF 8.7.1, 8.17.7), the normal law for narrow ones.
    [Fact]
    public void Quantiles_OfSteepAndNarrowLaws_ReachTheirLimits()
    {
        var steep = GammaDistribution.FromShapeAndScale(0.001, 1);
        var logGamma = MathNet.Numerics.SpecialFunctions.GammaLn(1.001);
        foreach (var p in new[] { 0.55, 0.8, 0.95 })
        {
            Assert.Equal((Math.Log(p) + logGamma) / 0.001, Math.Log(steep.Quantile(p)), 1e-9);
        }

        // I_x(a, b) = x^a/(a B(a, b)) for small x: here 1/(a B) = Γ(a + 1)^-1 Γ(a + b)/Γ(b).
        var heap = BetaDistribution.FromShapes(0.01, 2);
        var logFactor =
            MathNet.Numerics.SpecialFunctions.GammaLn(1.01)
            + MathNet.Numerics.SpecialFunctions.GammaLn(2)
            - MathNet.Numerics.SpecialFunctions.GammaLn(2.01);
        foreach (var p in new[] { 0.2, 0.55, 0.6 })
        {
            Assert.Equal((Math.Log(p) + logFactor) / 0.01, Math.Log(heap.Quantile(p)), 1e-9);
        }

        // Next to the normal law: the error falls with the skewness, 2/sqrt(shape) and 0.
        foreach (var z in new[] { -3.0, -1, 1, 3 })
        {
            Assert.Equal(
                1e6 + (1000 * z) + ((z * z) - 1) / 3,
                GammaDistribution.FromShapeAndScale(1e6, 1).FromStandardNormal(z),
                0.01
            );
            // So narrow a law can lose digits: limits of a probability from a million million draws still hold 1 % of their width.
            foreach (var (shape, share) in new[] { (1e10, 1e-4), (1e12, 0.01) })
            {
                var deviation = 1 / Math.Sqrt(8 * shape);
                Assert.Equal(
                    0.5 + (z * deviation),
                    BetaDistribution.FromShapes(shape, shape).FromStandardNormal(z),
                    share * deviation
                );
            }
        }

        // The relative spread of a narrow Weibull law is that of a Gumbel law: π/(√6 k), to the first order in 1/k.
        Assert.Equal(
            Math.PI / Math.Sqrt(6) * 1e-6,
            WeibullDistribution.FromShapeAndScale(1e6, 1).StandardDeviation,
            2e-12
        );
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
