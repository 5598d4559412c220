using DeckLife.Population;
using Xunit;

namespace DeckLife.Tests.Population;

public class UntreatedAreaTests
{
    // Cover N(2.0, 0.4) in floored at 0.1; D, Cs, Ct lognormal by their means 0.05 in²/yr, 12 and 2.5 lb/yd3, COV 0.6, 0.4, 0.4.
    // The reference values are computed by quadrature, independently of this code.
    [Theory]
    [InlineData(512, 64, 5e-4)]
    [InlineData(65_536, 1, 1e-4)]
    public void InitiatedFraction_KnownArea_MatchesQuadrature(
        int points,
        int draws,
        double tolerance
    )
    {
        // One draw of 512 points leaves 1.5e-3; a projection is the mean over its draws, each with its own shift.
        var areas = Enumerable.Range(0, draws).Select(k => Example(points, k)).ToArray();

        double Mean(Func<UntreatedArea, double> share) => areas.Average(share);
        Assert.Equal(0.02, Mean(a => a.InitiatedFraction(5.286)), tolerance);
        Assert.Equal(0.10, Mean(a => a.InitiatedFraction(10.256)), tolerance);
        Assert.Equal(0.25, Mean(a => a.InitiatedFraction(17.126)), tolerance);
        Assert.Equal(0.50, Mean(a => a.InitiatedFraction(30.507)), tolerance);
        Assert.Equal(0.001994, Mean(a => a.NeverFraction()), tolerance);
    }

    [Fact]
    public void TimeToInitiated_KnownArea_MatchesQuadrature()
    {
        var area = Example(65_536);

        // Printed to 3 decimals; the point set leaves a few 1e-3.
        Assert.Equal(5.286, area.TimeToInitiated(0.02, 500)!.Value, 4e-3);
        Assert.Equal(10.256, area.TimeToInitiated(0.10, 500)!.Value, 4e-3);
        Assert.Equal(17.126, area.TimeToInitiated(0.25, 500)!.Value, 4e-3);
        Assert.Equal(30.507, area.TimeToInitiated(0.50, 500)!.Value, 6e-3);
        Assert.Null(area.TimeToInitiated(0.9999, 500));
    }

    [Fact]
    public void TimeToInitiated_MeanInputsAlone_IsAnotherAnswer()
    {
        // Mean inputs as one point: 25.27 yr; the area reaches a tenth at 10.256 yr.
        var one = new UntreatedArea(
            new([50.8], [12 * LbPerYd3], [0.05 * 645.16], [0], [0]),
            PointDistribution.LognormalWithMean(2.5 * LbPerYd3, 0),
            0,
            new(20)
        );

        Assert.Equal(25.27, one.TimeToInitiated(0.5, 500)!.Value, 5e-3);
    }

    private const double LbPerYd3 = 0.593276421257783;

    internal static UntreatedArea Example(int points, int draw = 0)
    {
        var surface = PointDistribution.LognormalWithMean(12 * LbPerYd3, 0.4);
        var population = new DeckPopulation
        {
            Cover = PointDistribution.NormalAboveZero(50.8, 10.16),
            CoverFloorMm = 2.54,
            MeanLnSurfaceChloride = Math.Log(surface.Quantile(0.5)),
            SdLnSurfaceChloride = Math.Sqrt(Math.Log(1.16)),
            MeanLnDiffusionCoefficient = Math.Log(0.05 * 645.16) - 0.5 * Math.Log(1.36),
            SdLnDiffusionCoefficient = Math.Sqrt(Math.Log(1.36)),
            Threshold = PointDistribution.LognormalWithMean(2.5 * LbPerYd3, 0.4),
            PropagationYr = PointDistribution.LognormalWithMean(5, 0),
        };
        var unit = UnitPoints.ForArea(1, draw, points, AreaPoints.Dimensions);
        return new(AreaPoints.From(population, unit), population.Threshold, 0, new(20));
    }
}
