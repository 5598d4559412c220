using System.Runtime.CompilerServices;
using DeckLife.Numerics.Kernels;
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
