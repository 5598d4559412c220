using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using Xunit;

namespace DeckLife.Tests.Population;

public class AreaPointsTests
{
    private static readonly DeckPopulation Population = new()
    {
        Cover = PointDistribution.NormalAboveZero(55, 8),
        MeanLnSurfaceChloride = Math.Log(6),
        SdLnSurfaceChloride = 0.3,
        MeanLnDiffusionCoefficient = Math.Log(35),
        SdLnDiffusionCoefficient = 0.5,
        Correlation = -0.6,
        BackgroundKgPerM3 = 0.1,
        Threshold = PointDistribution.LognormalWithMean(1, 0.3),
        PropagationYr = PointDistribution.LognormalWithMean(5, 0.4),
    };

    [Fact]
    public void From_ScoresOfOneAndMinusAHalf_ValuesByHand()
    {
        // Scores: cover 1, Cs 1, own part of D −0.5, propagation 0, material 2; and of a second point.
        var points = At(Population, 1, 1, -0.5, 0, 2, 0, -0.5, 1, 1, -1);

        // The truncation at 0 lies 6.9 deviations below the mean.
        Assert.Equal(55 + 8, points.CoverMm[0], 1e-6);
        Assert.Equal(6 * Math.Exp(0.3), points.SurfaceChloride[0], 1e-6);
        // ρ = −0.6 of the score of Cs and 0.8 of its own.
        Assert.Equal(
            35 * Math.Exp(0.5 * ((-0.6 * 1) + (0.8 * -0.5))),
            points.DiffusionMm2PerYr[0],
            1e-6
        );
        Assert.Equal(5 / Math.Sqrt(1.16), points.PropagationYr[0], 1e-6);
        Assert.Equal(2, points.MaterialScore[0], 1e-9);
        Assert.Equal(2, points.Count);
        Assert.Equal(55, points.CoverMm[1], 1e-6);
        Assert.Equal(6 * Math.Exp(-0.15), points.SurfaceChloride[1], 1e-6);
        Assert.Equal(35 * Math.Exp(0.5 * (0.3 + 0.8)), points.DiffusionMm2PerYr[1], 1e-6);
        Assert.Equal(
            5 / Math.Sqrt(1.16) * Math.Exp(Math.Sqrt(Math.Log(1.16))),
            points.PropagationYr[1],
            1e-6
        );
        Assert.Equal(-1, points.MaterialScore[1], 1e-9);
    }

    [Fact]
    public void From_LowValues_StayAboveTheirFloors()
    {
        var low = At(
            Population with
            {
                CoverFloorMm = 30,
                BackgroundKgPerM3 = 4,
                PropagationOf = (years, cover) => years + cover,
            },
            -4,
            -4,
            0,
            0,
            0
        );

        Assert.Equal(30, low.CoverMm[0]);
        Assert.Equal(4, low.SurfaceChloride[0], 1e-12);
        // What propagation hangs on is the cover that the point was given.
        Assert.Equal((5 / Math.Sqrt(1.16)) + 30, low.PropagationYr[0], 1e-6);
    }

    [Fact]
    public void First_SomeOfThePoints_EachColumnOfThem()
    {
        var points = new AreaPoints([1, 2, 3], [4, 5, 6], [7, 8, 9], [10, 11, 12], [13, 14, 15]);

        var first = points.First(2);

        Assert.Equal(2, first.Count);
        Assert.Equal([1.0, 2], first.CoverMm);
        Assert.Equal([4.0, 5], first.SurfaceChloride);
        Assert.Equal([7.0, 8], first.DiffusionMm2PerYr);
        Assert.Equal([10.0, 11], first.PropagationYr);
        Assert.Equal([13.0, 14], first.MaterialScore);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Constructor_OneColumnShorter_IsRefused(int column)
    {
        double[] Of(int c) => new double[c == column ? 1 : 2];

        Assert.Throws<ArgumentException>(() => new AreaPoints(Of(0), Of(1), Of(2), Of(3), Of(4)));
    }

    [Fact]
    public void NoPoints_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => new AreaPoints([], [], [], [], []));
        Assert.Throws<ArgumentException>(() => AreaPoints.From(Population, []));
        Assert.Throws<ArgumentException>(() => AreaPoints.From(Population, new double[7]));
    }

    private static AreaPoints At(DeckPopulation population, params double[] scores) =>
        AreaPoints.From(population, [.. scores.Select(NormalQuantile.Probability)]);
}
