using System.Runtime.CompilerServices;
using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.SpecialFunctions;
using DeckLife.Numerics.Vectors;
using Xunit;

namespace DeckLife.Numerics.Tests.Kernels;

public class ConditionalEstimatorTests
{
    private static readonly double[] Times = [10, 25, 50, 100];

    // SciPy 1.10.1 (ndtr, log_ndtr), tensor Gauss-Hermite rule of 100³ points; 80³ points agree to the digits kept here.
    private static readonly double[] Exact =
    [
        0.0014378385,
        0.0208595375,
        0.0829341530,
        0.2127627065,
    ];

    public static TheoryData<LaneWidth> Widths => [.. VectorWidth.Available];

    private static LimitStateModel Model =>
        new(
            65,
            8,
            Math.Log(4 * RandomSections.Unit),
            0.3,
            0.5,
            0.08,
            Math.Log(0.5),
            0.35,
            Math.Log(0.09),
            0.25
        )
        {
            LeastAgeing = 0.05,
            LargestAgeing = 0.9,
        };

    [Theory]
    [MemberData(nameof(Widths))]
    public void Estimate_ManyPoints_IsTheQuadrature(LaneWidth width)
    {
        var found = new ConditionalEstimator(Model, width).Estimate(Times, 1 << 14, 8, 1);
        for (var i = 0; i < Times.Length; i++)
        {
            Assert.InRange(
                Math.Abs(found[i].Probability - Exact[i]),
                0,
                1e-6 + (4 * found[i].StandardError)
            );
            Assert.InRange(found[i].StandardError, 0, 5e-5);
        }
    }

    // The figure to reach: root mean square error 2e-4 at most with 4096 points.
    [Fact]
    public void Estimate_4096Points_RootMeanSquareErrorBelow2E4()
    {
        var square = 0.0;
        for (var r = 0; r < 20; r++)
        {
            // Two shifts at once: each of the pair's mean counts double.
            var found = new ConditionalEstimator(Model).Estimate([50], 4096, 2, (ulong)r + 100);
            var error = found[0].Probability - Exact[2];
            square += 2 * error * error / 20;
        }

        Assert.True(
            Math.Sqrt(square) < 2e-4,
            FormattableString.Invariant($"rmse {Math.Sqrt(square):E2}")
        );
    }

    [Fact]
    public void EstimateByCounting_AgreesWithinItsError()
    {
        var found = new ConditionalEstimator(Model).EstimateByCounting(Times, 1 << 15, 16, 3);
        for (var i = 0; i < Times.Length; i++)
        {
            Assert.InRange(
                Math.Abs(found[i].Probability - Exact[i]),
                0,
                5 * found[i].StandardError
            );
            Assert.True(found[i].StandardError > 1e-5);
        }
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Estimate_AnyWidthAndThreads_SameToRounding(LaneWidth width)
    {
        var scalar = new ConditionalEstimator(Model, LaneWidth.Scalar).Estimate(
            Times,
            5000,
            3,
            9,
            1
        );
        var found = new ConditionalEstimator(Model, width).Estimate(Times, 5000, 3, 9, 1);
        var threads = new ConditionalEstimator(Model, width).Estimate(Times, 5000, 3, 9, 8);
        Assert.Equal(found, threads);
        for (var i = 0; i < Times.Length; i++)
        {
            Assert.Equal(scalar[i].Probability, found[i].Probability, 1e-13);
        }
    }

    // Counts differ between widths only where a point lies within 1e-10 of the limit: at most one of 16 x 4096 here.
    [Theory]
    [MemberData(nameof(Widths))]
    public void EstimateByCounting_AnyWidth_CountsTheSamePoints(LaneWidth width)
    {
        foreach (
            var model in new[] { Model, Model with { AgeAtStartYr = 0.3, ConstantAfterYr = 20 } }
        )
        {
            var scalar = new ConditionalEstimator(model, LaneWidth.Scalar).EstimateByCounting(
                Times,
                4095,
                16,
                9,
                1
            );
            var found = new ConditionalEstimator(model, width).EstimateByCounting(
                Times,
                4095,
                16,
                9,
                8
            );
            var exact = new ConditionalEstimator(model).Estimate(Times, 1 << 13, 4, 2);
            for (var i = 0; i < Times.Length; i++)
            {
                Assert.Equal(scalar[i].Probability, found[i].Probability, 1.5 / (16 * 4095));
                Assert.InRange(
                    Math.Abs(found[i].Probability - exact[i].Probability),
                    0,
                    5 * found[i].StandardError
                );
            }
        }
    }

    // The formula written out with the scalar functions, for both ageing laws, fixed quantities, every width, and a length that no vector fits.
    [Theory]
    [InlineData(true, 0.08, 0.35)]
    [InlineData(false, 0.08, 0.35)]
    [InlineData(false, 0, 0)]
    public void Indicator_OfScores_IsTheFormula(
        bool isInstantaneous,
        double ageingSd,
        double surfaceSd
    )
    {
        const int n = 1003;
        var columns = new double[6][];
        for (var k = 0; k < 6; k += 2)
        {
            (columns[k], columns[k + 1]) = (new double[n], new double[n]);
            RandomPairs.FillNormal(3, 4, (ulong)k, columns[k], columns[k + 1]);
        }

        var model = Model with
        {
            DepthMeanMm = 40,
            AgeingStandardDeviation = ageingSd,
            SurfaceLogStandardDeviation = surfaceSd,
            IsAgeingInstantaneous = isInstantaneous,
        };
        foreach (var width in VectorWidth.Available)
        {
            var found = new double[n];
            new LimitStateIndicator(model, 50, width).Fill(
                columns[0],
                columns[1],
                columns[2],
                columns[3],
                columns[4],
                found
            );
            for (var i = 0; i < n; i++)
            {
                var m = Math.Clamp(0.5 + (ageingSd * columns[2][i]), 0.05, 0.9);
                var spread =
                    Math.Exp(Math.Log(4 * RandomSections.Unit) + (0.3 * columns[1][i]))
                    * Math.Pow(28 / 365.25 / 50, m)
                    * 50
                    / (isInstantaneous ? 1 - m : 1);
                var content =
                    0.5
                    * Math.Exp(surfaceSd * columns[3][i])
                    * ErrorFunction.Erfc((40 + (8 * columns[0][i])) / (2 * Math.Sqrt(spread)));
                var margin = (content / (0.09 * Math.Exp(0.25 * columns[4][i]))) - 1;
                if (Math.Abs(margin) > 1e-9)
                {
                    Assert.Equal(margin >= 0 ? 1 : 0, found[i]);
                }
            }

            Assert.InRange(found.Sum(), 1, n - 1);
        }
    }

    [Fact]
    public void Indicator_OfNumbersOutsideTheirRange_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new LimitStateIndicator(Model, 0));
        Assert.Throws<ArgumentException>(() =>
            new LimitStateIndicator(
                Model with
                {
                    IsAgeingInstantaneous = false,
                    AgeAtStartYr = 1,
                },
                50
            )
        );
    }

    // What a normal number promises: mean 0, variance 1, fourth moment 3, no correlation within a pair, the tail beyond 3 of 0.0026998.
    [Theory]
    [MemberData(nameof(Widths))]
    public unsafe void NormalPairs_OfALattice_HaveNormalMoments(LaneWidth width)
    {
        const int count = 1 << 16;
        var first = new double[count];
        var second = new double[count];
        var lattice = new RandomlyShiftedLattice(2, new RandomStream(4, "pairs"));
        lattice.FillCoordinate(0, 0, first);
        lattice.FillCoordinate(1, 0, second);
        var (u, v) = (first.ToArray(), second.ToArray());
        fixed (
            double* a = first,
                b = second
        )
        {
            switch (width)
            {
                case LaneWidth.Eight:
                    LimitStateLanes512.NormalPairs(a, b, count);
                    break;
                case LaneWidth.Four:
                    LimitStateLanes256.NormalPairs(a, b, count);
                    break;
                default:
                    LimitStateScalar.NormalPairs(a, b, count);
                    break;
            }
        }

        for (var i = 0; i < count; i++)
        {
            var radius = Math.Sqrt(-2 * Math.Log(u[i]));
            Assert.Equal(radius * Math.Cos(2 * Math.PI * v[i]), first[i], 1e-10);
            Assert.Equal(radius * Math.Sin(2 * Math.PI * v[i]), second[i], 1e-10);
        }

        foreach (var z in new[] { first, second })
        {
            Assert.Equal(0, z.Average(), 1e-3);
            Assert.Equal(1, z.Average(x => x * x), 3e-3);
            Assert.Equal(3, z.Average(x => x * x * x * x), 0.03);
            Assert.Equal(0.0026998, z.Average(x => Math.Abs(x) > 3 ? 1.0 : 0), 3e-4);
        }

        Assert.Equal(0, first.Zip(second, (x, y) => x * y).Average(), 1e-3);
    }

    // Ageing that stops at once leaves a constant D: the same as m = 0 with the D of that age.
    [Fact]
    public void Estimate_AgeingEndedBeforeTheStart_IsConstantDiffusion()
    {
        var faded = Model with
        {
            AgeingMean = 0.4,
            AgeingStandardDeviation = 0,
            AgeAtStartYr = 3,
            ConstantAfterYr = 2,
            ReferenceAgeYr = 1,
        };
        var constant = faded with
        {
            AgeingMean = 0,
            LeastAgeing = 0,
            DiffusionLogMean = faded.DiffusionLogMean - (0.4 * Math.Log(2)),
        };
        var first = new ConditionalEstimator(faded).Estimate(Times, 1024, 2, 4);
        var second = new ConditionalEstimator(constant).Estimate(Times, 1024, 2, 4);
        for (var i = 0; i < Times.Length; i++)
        {
            Assert.Equal(second[i].Probability, first[i].Probability, 1e-12);
        }
    }

    [Fact]
    public void Model_WithoutAnySpreadToIntegrate_Throws() =>
        Assert.Throws<ArgumentException>(() =>
            new ConditionalEstimator(
                Model with
                {
                    SurfaceLogStandardDeviation = 0,
                    ThresholdLogStandardDeviation = 0,
                }
            )
        );

    [Theory]
    [InlineData("ClosedFormLanes")]
    [InlineData("LimitStateLanes")]
    [InlineData("LayeredCore")]
    [InlineData("ProfileFitLanes")]
    public void Source_OfTheNarrowFile_IsTheWideOnesWithTheNumberReplaced(string name)
    {
        static string Body(string file, [CallerFilePath] string here = "")
        {
            var path = Path.Combine(
                Path.GetDirectoryName(here)!,
                "../../../src/DeckLife.Numerics/Kernels",
                file
            );
            return string.Join(
                '\n',
                File.ReadLines(path)
                    .Where(line => !line.TrimStart().StartsWith("///", StringComparison.Ordinal))
                    .Select(line =>
                        line.Replace("Vector512", "Vector256", StringComparison.Ordinal)
                            .Replace("LaneMath512", "LaneMath256", StringComparison.Ordinal)
                            .Replace("Lanes512", "Lanes256", StringComparison.Ordinal)
                            .Replace("LayeredCore512", "LayeredCore256", StringComparison.Ordinal)
                    )
            );
        }

        Assert.Equal(Body(name + "512.cs"), Body(name + "256.cs"));
    }
}
