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

    // erfc 0.5 and erfc 1 (Abramowitz and Stegun, table 7.1): depth 2√s times the argument, D 25 and 16 years make 2√s 40 mm.
    private const double ErfcHalf = 0.4795001221869535;
    private const double ErfcOne = 0.15729920705028513;

    [Fact]
    public void Contents_ClosedForm_ByTabledErrorFunctions()
    {
        var area = Two(5, 5);
        var contents = new double[2];

        area.ContentsAtBars(16, contents);

        // Covers 20 and 40 mm, Cs 6.1 and 4.1, C0 0.1.
        Assert.Equal(0.1 + (6 * ErfcHalf), contents[0], 1e-9);
        Assert.Equal(0.1 + (4 * ErfcOne), contents[1], 1e-9);
        Assert.Equal(0.1 + (6 * ErfcOne), area.ContentAtDepth(0, 40, 16), 1e-9);
        Assert.Equal(0.1, area.ContentAtDepth(0, 40, 0));
        area.ContentsAtBars(0, contents);
        Assert.Equal([0.1, 0.1], contents);
    }

    [Theory]
    [InlineData(5, 5)]
    [InlineData(5, 9)]
    public void ContentsAtStartOfDamage_EachPointsOwnPeriodBefore(double first, double second)
    {
        var area = Two(first, second);
        var contents = new double[2];
        var earlier = new double[2];

        area.ContentsAtStartOfDamage(21, contents);

        area.ContentsAtBars(21 - first, earlier);
        Assert.Equal(earlier[0], contents[0], 1e-12);
        area.ContentsAtBars(21 - second, earlier);
        Assert.Equal(earlier[1], contents[1], 1e-12);
        // Before the first salt nothing can have begun, whatever the background.
        area.ContentsAtStartOfDamage(4.9, contents);
        Assert.Equal([-1.0, -1], contents);
        area.ContentsAtStartOfDamage(5, contents);
        Assert.Equal(0.1, contents[0], 1e-9);
        Assert.Equal(second == 5 ? 0.1 : -1, contents[1], 1e-9);
    }

    [Fact]
    public void Fractions_ThresholdBetweenTheTwoPoints_AreHalf()
    {
        // At 16 years 2.98 and 0.73 kg/m³; in the end 6.1 and 4.1.
        var area = Two(5, 5, 1);

        Assert.Equal(0.5, area.InitiatedFraction(16));
        Assert.Equal(0.5, area.DamagedFraction(21));
        Assert.Equal(0, area.DamagedFraction(4));
        Assert.Equal(0, area.NeverFraction());
        Assert.Equal(0.5, Two(5, 5, 5).NeverFraction());
        Assert.Equal(1, Two(5, 5, 7).NeverFraction());
        // A background at the threshold is initiated from the start.
        Assert.Equal(0, Two(5, 5, 0.05).TimeToInitiated(0.5, 100));
        Assert.Null(area.TimeToInitiated(0.5, 1));
        Assert.Equal(0.0, area.TimeToInitiated(0, 100)!.Value);
        // Half of the area is reached when the first point is, and not only when more is.
        var half = area.TimeToInitiated(0.5, 16)!.Value;
        Assert.Equal(1, area.ContentAtDepth(0, 20, half), 1e-8);
    }

    [Fact]
    public void NeverFraction_SaltedUnderside_ContentInTheEndRunsStraightFromFaceToFace()
    {
        // Slab of 200 mm, 2.1 below: at 20 and 40 mm in the end 6.1 − 4·0.1 = 5.7 and 4.1 − 2·0.2 = 3.7.
        double Never(double threshold) => Two(5, 5, threshold, new(200, 2.1)).NeverFraction();

        Assert.Equal(0, Never(3.69));
        Assert.Equal(0.5, Never(3.71));
        Assert.Equal(0.5, Never(5.69));
        Assert.Equal(1, Never(5.71));
    }

    [Fact]
    public void Contents_BarBelowTheSlab_IsTheUndersides()
    {
        // A drawn cover may pass the slab: it is then held at its lower face.
        var area = new UntreatedArea(
            new([250], [6], [25], [5], [0]),
            PointDistribution.LognormalWithMean(1, 0),
            0.1,
            new(20),
            new(200, 2.1)
        );
        var contents = new double[1];

        area.ContentsAtBars(1, contents);

        Assert.Equal(2.1, contents[0], 1e-9);
    }

    private static UntreatedArea Two(
        double first,
        double second,
        double threshold = 1,
        SoffitFace? soffit = null
    ) =>
        new(
            new([20, 40], [6.1, 4.1], [25, 25], [first, second], [0, 0]),
            PointDistribution.LognormalWithMean(threshold, 0),
            0.1,
            new(20),
            soffit
        );

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
