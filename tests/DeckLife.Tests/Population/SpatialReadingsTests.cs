using DeckLife.Population;
using DeckLife.Surveys;
using Xunit;

namespace DeckLife.Tests.Population;

public class SpatialReadingsTests
{
    // 3 m along and 4 m across: 5 m apart.
    private static readonly double[] X = [1, 4];
    private static readonly double[] Y = [2, 6];

    [Theory]
    [InlineData(2.5, 0)]
    [InlineData(2.5, 0.4)]
    [InlineData(5, 1)]
    public void EffectiveNumber_TwoReadings_FourOverTheSumOfTheirCorrelations(
        double length,
        double nugget
    )
    {
        var between = (1 - nugget) * Math.Exp(-5 / length);

        Assert.Equal(
            4 / (2 + (2 * between)),
            SpatialReadings.EffectiveNumber(X, Y, length, nugget),
            1e-12
        );
    }

    [Fact]
    public void EffectiveNumber_NothingRead_IsNone()
    {
        Assert.Equal(0, SpatialReadings.EffectiveNumber([], [], 2));
        Assert.Equal(2, SpatialReadings.EffectiveNumber(X, Y, 0));
    }

    [Theory]
    [InlineData(800, 1.5, 800 / (2 * Math.PI * 2.25))]
    [InlineData(3, 1.5, 1)] // an area smaller than one patch of the field is one place
    public void EffectiveNumber_OfAnArea_IsItOverTheIntegralOfTheCorrelation(
        double area,
        double length,
        double expected
    ) => Assert.Equal(expected, SpatialReadings.EffectiveNumber(area, length), 1e-12);

    [Fact]
    public void EffectiveNumber_OneReadingOfASmallPlan_IsTheVarianceOfTheDifferenceOfMeans()
    {
        // A deck much smaller than the correlation length: the one reading is the deck's mean, but for its nugget.
        var small = SpatialReadings.EffectiveNumber([0.5], [0.5], 1e6, 0.25, new(0, 1, 0, 1));
        // Much larger: reading and mean share nothing, the mean itself does not vary, and one reading is one.
        var large = SpatialReadings.EffectiveNumber([50], [50], 0.01, 0.25, new(0, 100, 0, 100));

        Assert.Equal(1, small);
        Assert.Equal(1, large, 0.01);
    }

    [Fact]
    public void EffectiveNumber_ReadingsOfOneEnd_VarianceOfTheDifferenceByAllPairs()
    {
        // A plan of 20 m by 10 m has 200 places of 1 m²; weights of a reading 1/n, of a place −1/200.
        double[] x = [1, 3, 4],
            y = [2, 8, 5];
        var all = x.Zip(y, (a, b) => (X: a, Y: b, Weight: 1.0 / 3))
            .Concat(
                Enumerable
                    .Range(0, 200)
                    .Select(i => (X: (i % 20) + 0.5, Y: (i / 20) + 0.5, Weight: -1.0 / 200))
            )
            .ToArray();
        var variance = all.Sum(a =>
            all.Sum(b =>
                a.Weight
                * b.Weight
                * Math.Exp(-Math.Sqrt(Math.Pow(a.X - b.X, 2) + Math.Pow(a.Y - b.Y, 2)) / 6)
            )
        );

        Assert.Equal(
            1 / ((0.2 / 3) + (0.8 * variance)),
            SpatialReadings.EffectiveNumber(x, y, 6, 0.2, new DeckPlan(0, 20, 0, 10)),
            1e-9
        );
    }

    [Fact]
    public void EffectiveNumber_ManyReadingsOfOnePlace_AreOneOfADistantDeckMean()
    {
        // 50 readings within centimetres of each other: their mean is the field there, and the deck's mean hardly varies.
        double[] x = [.. Enumerable.Range(0, 50).Select(i => 100 + (1e-4 * i))];
        double[] y = [.. x.Select(_ => 100.0)];

        Assert.Equal(
            1,
            SpatialReadings.EffectiveNumber(x, y, 1, 0, new DeckPlan(0, 200, 0, 200)),
            0.03
        );
        // Half of the variance is each reading's own: 0.5 + 0.5/50.
        Assert.Equal(
            1 / 0.51,
            SpatialReadings.EffectiveNumber(x, y, 1, 0.5, new DeckPlan(0, 200, 0, 200)),
            0.06
        );
    }
}
