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
