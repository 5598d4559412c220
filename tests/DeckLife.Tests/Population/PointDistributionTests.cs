using System.Collections.Immutable;
using DeckLife.Population;
using DeckLife.Quantities;
using DeckLife.Surveys;
using Xunit;

namespace DeckLife.Tests.Population;

public class PointDistributionTests
{
    public static TheoryData<string> Shapes => ["lognormal", "normal", "beta", "readings"];

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Cumulative_OfAQuantile_IsItsProbability(string shape)
    {
        var distribution = Make(shape);

        for (var p = 0.01; p < 1; p += 0.01)
        {
            // The smoothed readings are read from a table of 1025 rows, linear between.
            Assert.Equal(p, distribution.Cumulative(distribution.Quantile(p)), 1e-6);
        }

        Assert.Equal(0, distribution.Cumulative(0));
        Assert.Equal(0, distribution.Cumulative(-5));
        Assert.True(distribution.Quantile(1e-9) > 0);
    }

    [Fact]
    public void Draw_ReadingsOfTwoMats_KeepBothModes()
    {
        var covers = Enumerable
            .Range(0, 200)
            .Select(i => new CoverReading(
                i + 2,
                null,
                null,
                Depth.FromMillimetres((i % 2 == 0 ? 40 : 70) + i % 7 - 3)
            ))
            .ToImmutableArray();

        var own = CoverSurvey.FromReadings(covers, CoverShape.Readings)!.Draw(0.5, 0);
        var normal = CoverSurvey.FromReadings(covers)!.Draw(0.5, 0);

        double Between(PointDistribution d) => d.Cumulative(60) - d.Cumulative(50);
        Assert.True(Between(own) < 0.6 * Between(normal));
        // Median of χ² over its mean makes the drawn deviation a little larger than the sample's: within 1 %.
        var grid = Enumerable.Range(0, 2000).Select(i => own.Quantile((i + 0.5) / 2000)).ToArray();
        Assert.Equal(55, grid.Average(), 0.2);
        Assert.Equal(
            covers.Select(c => c.Cover.Millimetres).Select(x => (x - 55) * (x - 55)).Average(),
            grid.Select(x => (x - 55) * (x - 55)).Average(),
            5.0
        );
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.3)]
    [InlineData(1)]
    public void WithinDeck_AnyShare_WholeSpreadIsTheStatedOne(double share)
    {
        // Variance of ln x over what is not known and over the deck together: ln(1 + 0.5²), whatever the share.
        const int N = 400;
        double sum = 0,
            squares = 0;
        for (var k = 0; k < N; k++)
        {
            var score = DeckLife.Numerics.Sampling.NormalQuantile.At((k + 0.5) / N);
            var distribution = PointDistribution.WithinDeck(
                new(2, 0.5, SpreadShape.Lognormal),
                share,
                score
            );
            for (var i = 0; i < N; i++)
            {
                var ln = Math.Log(distribution.Quantile((i + 0.5) / N));
                sum += ln / (N * N);
                squares += ln * ln / (N * N);
            }
        }

        // 400 mid-points of a normal have a variance 0.5 % low.
        Assert.Equal(Math.Log(1.25), squares - sum * sum, 0.002);
        Assert.Equal(Math.Log(2) - Math.Log(1.25) / 2, sum, 1e-9);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Quantiles_AndCumulativeOfSeveral_AreThoseOfEach(string shape)
    {
        var distribution = Make(shape);
        double[] shares = [.. Enumerable.Range(1, 19).Select(i => i / 20.0)];
        var values = new double[shares.Length + 1];
        values[^1] = -7;

        distribution.Quantiles(shares, values);

        Assert.Equal(-7, values[^1]);
        Assert.All(
            shares.Zip(values),
            pair => Assert.Equal(distribution.Quantile(pair.First), pair.Second, 1e-9)
        );
        var back = new double[shares.Length];
        distribution.Cumulative(values.AsSpan(0, back.Length), back);
        Assert.All(shares.Zip(back), pair => Assert.Equal(pair.First, pair.Second, 1e-6));
        double[] outside = [0, -1];
        distribution.Cumulative(outside, outside);
        Assert.Equal([0.0, 0], outside);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void AtScores_OfShares_AreTheQuantiles(string shape)
    {
        var distribution = Make(shape);
        double[] scores = [-2, 0, 1];
        var values = new double[3];

        distribution.AtScores(scores, values);

        // Φ(−2), Φ(0), Φ(1).
        double[] shares = [0.02275013194817921, 0.5, 0.8413447460685429];
        Assert.All(
            shares.Zip(values),
            pair => Assert.Equal(distribution.Quantile(pair.First), pair.Second, 1e-7)
        );
    }

    [Fact]
    public void NoSpread_EveryPointHasTheValue()
    {
        foreach (
            var exact in new[]
            {
                PointDistribution.Lognormal(Math.Log(3), 0),
                PointDistribution.NormalAboveZero(3, 0),
            }
        )
        {
            var values = new double[2];
            Assert.True(exact.IsExact);
            Assert.Equal(0, exact.LogarithmicSpread);
            Assert.Equal(3, exact.Quantile(0.01), 1e-12);
            exact.Quantiles([0.1, 0.9], values);
            Assert.All(values, v => Assert.Equal(3, v, 1e-12));
            exact.AtScores([-1, 2], values);
            Assert.All(values, v => Assert.Equal(3, v, 1e-12));
            exact.Cumulative([2.999, 3.001], values);
            Assert.Equal([0.0, 1], values);
            Assert.Equal(1, exact.Cumulative(3));
            Assert.Equal(0, exact.Cumulative(-1));
        }
    }

    [Fact]
    public void Lognormal_MeanAndSpread_AreOfTheLogarithm()
    {
        var distribution = PointDistribution.Lognormal(1.2, 0.4);

        Assert.Equal(Math.Exp(1.2), distribution.Quantile(0.5), 1e-9);
        Assert.Equal(Math.Exp(1.6), distribution.Quantile(0.8413447460685429), 1e-7);
        Assert.Equal(0.4, distribution.LogarithmicSpread);
        Assert.False(distribution.IsExact);
    }

    [Fact]
    public void NormalAboveZero_HalfOfItCutOff_IsScaledUpAgain()
    {
        // Mean 1, deviation 1: Φ(−1) lies below 0 and is spread over the rest.
        const double Below = 0.15865525393145707;
        var distribution = PointDistribution.NormalAboveZero(1, 1);

        Assert.Equal((0.5 - Below) / (1 - Below), distribution.Cumulative(1), 1e-12);
        Assert.Equal(0, distribution.Cumulative(0));
        Assert.Equal(1, distribution.Quantile((0.5 - Below) / (1 - Below)), 1e-9);
        // Φ(−0.1) and Φ(1.9) bound the middle 68 % about; the spread of the logarithm is half of it.
        Assert.Equal(
            Math.Log(distribution.Quantile(0.84) / distribution.Quantile(0.16)) / 2,
            distribution.LogarithmicSpread,
            1e-12
        );
    }

    [Fact]
    public void FromReadings_PartOfTheShapeBelowZero_IsWhatIsLeftAboveScaledUp()
    {
        var shape = new SmoothedReadings(
            Enumerable.Range(0, 50).Select(i => 30.0 + (i * i / 40.0))
        );
        var moved = PointDistribution.FromReadings(shape, 8, 10);
        var below = shape.Cumulative(-0.8);

        Assert.InRange(below, 0.1, 0.4);
        for (var x = 1.0; x < 30; x += 2)
        {
            var share = (shape.Cumulative((x - 8) / 10) - below) / (1 - below);
            Assert.Equal(share, moved.Cumulative(x), 1e-12);
            if (share is > 0 and < 1)
            {
                Assert.Equal(x, moved.Quantile(share), 1e-8);
            }
        }

        Assert.Equal(0, moved.Cumulative(0));
        Assert.Equal(0, moved.Cumulative(-3));
        Assert.Equal(0, moved.Quantile(0), 1e-9);
    }

    [Fact]
    public void ScaledBeta_UniformMoments_IsTheUniform()
    {
        // Mean 3 and variance 4²/12 on 1 to 5: p = q = 1.
        var uniform = PointDistribution.ScaledBeta(3, 4 / Math.Sqrt(12), 1, 5);

        Assert.Equal(1 + (4 * 0.3), uniform.Quantile(0.3), 1e-8);
        Assert.Equal(0.3, uniform.Cumulative(1 + (4 * 0.3)), 1e-10);
        Assert.Equal(0, uniform.Cumulative(1));
        Assert.Equal(1, uniform.Cumulative(5));
        Assert.Equal(1, uniform.Cumulative(6));
    }

    [Fact]
    public void ScaledBeta_MeanOffTheMiddle_ShareByTheClosedForm()
    {
        // p = 2, q = 1 on 0 to 1: F = x², mean 2/3, variance 1/18.
        var rising = PointDistribution.ScaledBeta(2.0 / 3, Math.Sqrt(1.0 / 18), 0, 1);

        Assert.Equal(0.36, rising.Cumulative(0.6), 1e-10);
        Assert.Equal(0.6, rising.Quantile(0.36), 1e-8);
    }

    [Theory]
    [InlineData(0.5, 0.6)] // more than any beta on the interval can have
    [InlineData(0.5, 0.5)] // two points: no density
    [InlineData(0, 0.1)]
    [InlineData(1, 0.1)]
    [InlineData(1.2, 0.1)]
    [InlineData(0.5, 0)]
    [InlineData(0.5, double.NaN)]
    public void ScaledBeta_MomentsThatNoneHas_AreRefused(double mean, double deviation) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            PointDistribution.ScaledBeta(mean, deviation, 0, 1)
        );

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-0.1)]
    public void AnyShape_SpreadThatIsNone_IsRefused(double spread)
    {
        Refused(() => PointDistribution.Lognormal(0, spread), "sdOfLogarithm");
        Refused(() => PointDistribution.LognormalWithMean(1, spread), "coefficientOfVariation");
        Refused(() => PointDistribution.NormalAboveZero(1, spread), "standardDeviation");
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(0)]
    [InlineData(-1)]
    public void AnyShape_MeanThatIsNotPositive_IsRefused(double mean)
    {
        Refused(() => PointDistribution.LognormalWithMean(mean, 0.1), "mean");
        Refused(() => PointDistribution.NormalAboveZero(mean, 0.1), "mean");
        Refused(
            () => PointDistribution.WithinDeck(new(mean, 0.1, SpreadShape.Normal), 0.5, 0),
            "value"
        );
        if (!double.IsFinite(mean))
        {
            Refused(() => PointDistribution.Lognormal(mean, 0.1), "meanOfLogarithm");
        }
    }

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void WithinDeck_ShareThatIsNone_IsRefused(double share) =>
        Refused(
            () => PointDistribution.WithinDeck(new(2, 0.3, SpreadShape.Lognormal), share, 0),
            "withinDeckShare"
        );

    [Fact]
    public void WithinDeck_NormalInPart_MeanMovesByWhatIsNotKnown()
    {
        // Deviation 2 in all; of the variance 0.36 within the deck and 0.64 not known.
        var moved = PointDistribution.WithinDeck(new(20, 0.1, SpreadShape.Normal), 0.36, 1.5);

        Assert.Equal(20 + (0.8 * 2 * 1.5), moved.Quantile(0.5), 1e-7);
        Assert.Equal(0.6 * 2, moved.Quantile(0.8413447460685429) - moved.Quantile(0.5), 1e-6);
    }

    [Fact]
    public void WithinDeck_NormalAllIgnorance_OneValueFromTheTruncatedNormal()
    {
        const double Below = 0.15865525393145707;
        var drawn = PointDistribution.WithinDeck(new(1, 1, SpreadShape.Normal), 0, 1);

        Assert.True(drawn.IsExact);
        // The value below which Φ(1) of the normal above 0 lies.
        Assert.Equal(
            0.8413447460685429,
            (PointDistribution.StandardNormalCumulative(drawn.Quantile(0.5) - 1) - Below)
                / (1 - Below),
            1e-9
        );
        Assert.True(
            PointDistribution.WithinDeck(new(1, 1, SpreadShape.Normal), 0, -40).Quantile(0.5) > 0
        );
    }

    [Fact]
    public void WithinDeck_MeanFarBelowZero_IsHeldAtAThousandth() =>
        Assert.Equal(
            0.02,
            PointDistribution
                .WithinDeck(new(20, 0.1, SpreadShape.Normal), 1e-12, -30)
                .Quantile(0.5),
            1e-4
        );

    private static void Refused(Action make, string parameter) =>
        Assert.Equal(parameter, Assert.Throws<ArgumentOutOfRangeException>(make).ParamName);

    private static PointDistribution Make(string shape) =>
        shape switch
        {
            "lognormal" => PointDistribution.LognormalWithMean(2, 0.4),
            "normal" => PointDistribution.NormalAboveZero(2, 1.5),
            "beta" => PointDistribution.ScaledBeta(0.6, 0.15, 0.2, 2),
            _ => CoverSurvey
                .FromReadings(
                    [
                        .. Enumerable
                            .Range(0, 50)
                            .Select(i => new CoverReading(
                                i,
                                null,
                                null,
                                Depth.FromMillimetres(30 + i * 13 % 50)
                            )),
                    ],
                    CoverShape.Readings
                )!
                .Draw(0.4, 0.5),
        };
}
