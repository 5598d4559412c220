using DeckLife.Data.Networks;
using DeckLife.Network.Decks;
using Xunit;

namespace DeckLife.Network.Tests;

public class DeckOptionsTests
{
    [Fact]
    public void Of_EveryStrategyAndStartYear_AreOptionsAndNothingIsTheFirst()
    {
        using var small = new SmallNetwork(1);

        var record = NetworkShards.Project(small.Read(), 0);

        Assert.Null(record.Failure);
        Assert.True(record.Options[0].IsNothing);
        Assert.Equal(
            [
                ("thin overlay", 2032),
                ("thin overlay", 2033),
                ("thin overlay", 2034),
                ("thick overlay", 2032),
                ("thick overlay", 2033),
                ("thick overlay", 2034),
            ],
            record.Options.Skip(1).Select(o => (o.Strategy, o.StartYear!.Value))
        );
    }

    [Fact]
    public void Of_UntilItsStart_AnOptionIsTheUntouchedDeck()
    {
        using var small = new SmallNetwork(1);
        var reading = small.Read();
        var years = reading.Network!.ConditionYears;

        var options = NetworkShards.Project(reading, 0).Options;

        foreach (var option in options.Skip(1))
        {
            var start = option.StartYear!.Value - 2032;
            for (var k = 0; k < 20; k++)
            {
                for (var y = 0; y < years; y++)
                {
                    var (with, without) = (
                        option.DamagedPpm[k * years + y],
                        options[0].DamagedPpm[k * years + y]
                    );
                    // The state of a year is that before its work.
                    Assert.True(y <= start ? with == without : with <= without);
                }
            }
        }
    }

    [Fact]
    public void Of_FixedDepths_CostIsPricesTimesVolumesInTheStartYear()
    {
        using var small = new SmallNetwork(1);

        var options = NetworkShards.Project(small.Read(), 0).Options;

        // 260 m², 10 mm off and 40 mm on, and more of both where damage is repaired: the cost lies above the bare sum, and below that of
        // a deck repaired all over.
        foreach (var option in options.Where(o => o.Strategy == "thin overlay"))
        {
            var year = option.StartYear!.Value - 2032;
            var bare = 20_000 + 260 * (0.010 * 2500 + 0.040 * 2000);
            Assert.InRange(option.CostByYear[year], bare, 2.2 * bare);
            Assert.Equal(option.CostByYear[year], option.CostByYear.Sum());
        }
    }

    [Fact]
    public void Of_SurveyAfterTheFirstYear_FailsAndSaysSo()
    {
        using var small = new SmallNetwork(1);
        small.Write(
            "d1/deck.json",
            """{ "name": "Late", "surveyDate": "2033-06-01", "firstSalt": { "age": "30 yr" }, "area": "300 m2", "cover": { "stated": "50 mm" } }"""
        );

        var record = NetworkShards.Project(small.Read(), 0);

        Assert.Equal("Late", record.Name);
        Assert.Contains("surveyed in 2033", record.Failure, StringComparison.Ordinal);
        Assert.Empty(record.Options);
    }

    [Fact]
    public void Of_StrategyThatTheDeckHasNot_FailsAndNamesIt()
    {
        using var small = new SmallNetwork(1);
        var reading = small.Read();
        reading = reading with
        {
            Network = reading.Network! with
            {
                Members = [reading.Network.Members[0] with { Strategies = ["gold plating"] }],
            },
        };

        Assert.Contains(
            "gold plating",
            NetworkShards.Project(reading, 0).Failure,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void From_ExposureClass_DrawsHaveItsSpread()
    {
        var kind = new ExposureClass
        {
            Name = "k",
            SurfaceChloride = new(6, 0.3, Population.SpreadShape.Lognormal),
            DiffusionCoefficient = new(16, 0.5, Population.SpreadShape.Lognormal),
            WithinDeckShare = 0.4,
            Source = "invented",
        };

        var fit = ClassFit.From(kind, 30, 11);

        // Lognormal with mean 6 and c.o.v. 0.3: variance of the logarithm ln(1.09), its mean ln 6 - ln(1.09)/2; 40 % of it within the deck.
        var variance = Math.Log(1.09);
        var logs = fit.Draws.Select(d => d.MeanLnSurfaceChloride).ToArray();
        var mean = logs.Average();
        var spread = logs.Sum(l => (l - mean) * (l - mean)) / (logs.Length - 1);
        // Four standard errors of a mean and of a variance over 4000 draws.
        Assert.Equal(Math.Log(6) - variance / 2, mean, 4 * Math.Sqrt(0.6 * variance / 4000));
        Assert.Equal(0.6 * variance, spread, 4 * 0.6 * variance * Math.Sqrt(2.0 / 4000));
        Assert.All(
            fit.Draws,
            d => Assert.Equal(Math.Sqrt(0.4 * variance), d.SdLnSurfaceChloride, 1e-12)
        );
        Assert.Equal(0, fit.Cores);
        Assert.NotNull(fit.Reason);
    }
}
