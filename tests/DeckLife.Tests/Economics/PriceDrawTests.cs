using DeckLife.Economics;
using DeckLife.Population;
using Xunit;

namespace DeckLife.Tests.Economics;

public class PriceDrawTests
{
    private static readonly PriceList Uncertain = new()
    {
        Currency = "USD",
        PriceYear = 2031,
        Items =
        [
            new("a", PriceBasis.LumpSum, 3, null) { CoefficientOfVariation = 0.3 },
            new("b", PriceBasis.LumpSum, 3, null),
            new("c", PriceBasis.LumpSum, 3, null) { CoefficientOfVariation = 0.3 },
        ],
        AfterLimit =
        [
            new("overlay", 100, new(15, 0.2, SpreadShape.Lognormal))
            {
                CoefficientOfVariation = 0.1,
            },
            new("overlay again", 90, new(12, 0.25, SpreadShape.Normal)),
        ],
        LevelCoefficientOfVariation = 0.1,
        QuantityGrowth = new(1.4, 0.15, SpreadShape.Lognormal),
    };

    [Fact]
    public void AsListed_UncertainPrices_EachAtItsMean()
    {
        var draw = PriceDraw.AsListed(Uncertain);

        Assert.Equal([1.0, 1, 1], draw.ItemFactors.AsEnumerable());
        Assert.Equal([1.0, 1], draw.ActionFactors.AsEnumerable());
        Assert.Equal([15.0, 12], draw.ActionLivesYr.AsEnumerable());
        Assert.Equal(1, draw.Level);
        Assert.Equal(1.4, draw.QuantityGrowth);
        Assert.Null(PriceDraw.AsListed(Uncertain with { QuantityGrowth = null }).QuantityGrowth);
    }

    [Fact]
    public void Of_SeedAndPlace_TellTheDrawAndNothingElseDoes()
    {
        var draw = PriceDraw.Of(Uncertain, 5, 77);

        Assert.Equal(draw.ItemFactors.AsEnumerable(), PriceDraw.Of(Uncertain, 5, 77).ItemFactors);
        Assert.NotEqual(draw.Level, PriceDraw.Of(Uncertain, 5, 78).Level);
        Assert.NotEqual(draw.Level, PriceDraw.Of(Uncertain, 6, 77).Level);
        Assert.Equal(1, draw.ItemFactors[1]);
        Assert.Equal(1, draw.ActionFactors[1]);
        // Each uncertain value has a number of its own.
        double[] scores =
        [
            Score(draw.ItemFactors[0], 1, 0.3),
            Score(draw.ItemFactors[2], 1, 0.3),
            Score(draw.Level, 1, 0.1),
            Score(draw.QuantityGrowth!.Value, 1.4, 0.15),
            Score(draw.ActionFactors[0], 1, 0.1),
            Score(draw.ActionLivesYr[0], 15, 0.2),
            (draw.ActionLivesYr[1] - 12) / 3,
        ];
        Assert.Equal(scores.Length, scores.Select(s => Math.Round(s, 3)).Distinct().Count());
    }

    [Fact]
    public void Of_LivesGrowthAndActions_HaveTheirMeansAndSpreads()
    {
        const int Draws = 4000;
        var draws = Enumerable.Range(0, Draws).Select(k => PriceDraw.Of(Uncertain, 9, k)).ToArray();

        // Four standard errors of a mean, and of a spread of a nearly normal value with half as much again.
        void Check(Func<PriceDraw, double> value, double mean, double cv)
        {
            var values = draws.Select(value).ToArray();
            Assert.Equal(mean, values.Average(), 4 * mean * cv / Math.Sqrt(Draws));
            Assert.Equal(
                cv,
                Math.Sqrt(values.Average(v => Math.Pow((v / mean) - 1, 2))),
                6 * cv / Math.Sqrt(2 * Draws)
            );
        }

        Check(d => d.ActionFactors[0], 1, 0.1);
        Check(d => d.ActionLivesYr[0], 15, 0.2);
        // Truncated at 0, four deviations below the mean.
        Check(d => d.ActionLivesYr[1], 12, 0.25);
        Check(d => d.QuantityGrowth!.Value, 1.4, 0.15);
    }

    private static double Score(double value, double mean, double cv) =>
        (Math.Log(value / mean) + (0.5 * Math.Log(1 + (cv * cv))))
        / Math.Sqrt(Math.Log(1 + (cv * cv)));
}
