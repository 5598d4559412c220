using System.Collections.Immutable;
using DeckLife.Economics;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Tests.Economics;

public class RankStabilityTests
{
    private static readonly Arbitrary<int[]> Draws = Gen.Choose(0, 50)
        .ArrayOf(12)
        .Where(d => d.Length == 12)
        .ToArbitrary();

    [Fact]
    public void Of_ThreeDraws_SharesAndRegretByHand()
    {
        var ranks = RankStability.Of([
            [1, 5, 4],
            [2, 5, 1],
            [9, 9, 9],
        ]);

        Assert.Equal(0.5, ranks[0].CheapestProbability, 1e-15);
        Assert.Equal(0.5, ranks[1].CheapestProbability, 1e-15);
        Assert.Equal(0, ranks[2].CheapestProbability);
        Assert.Equal(1, ranks[0].ExpectedRegret, 1e-15);
        Assert.Equal(1.0 / 3, ranks[1].ExpectedRegret, 1e-15);
        Assert.Equal((8 + 4 + 8) / 3.0, ranks[2].ExpectedRegret, 1e-14);
        // Shares 1, 1/2, 0: variance (1 + 1/4)/3 − 1/4 = 1/6, over three draws.
        Assert.Equal(Math.Sqrt(1.0 / 18), ranks[0].ErrorOfCheapestProbability, 1e-15);
    }

    [Fact]
    public void Of_WrongValues_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => RankStability.Of([]));
        Assert.Throws<ArgumentException>(() =>
            RankStability.Of([
                [],
            ])
        );
        Assert.Throws<ArgumentException>(() =>
            RankStability.Of([
                [1, 2],
                [1],
            ])
        );
        Assert.Throws<ArgumentException>(() =>
            RankStability.Of([
                [1, double.NaN],
            ])
        );
    }

    [Property(Replay = "(11,13)", MaxTest = 200)]
    public Property Of_EqualStrategies_TieAndShare() =>
        Prop.ForAll(
            Draws,
            draws =>
            {
                var values = draws.Select(d => (double)d).ToArray();
                var ranks = RankStability.Of([values, values, [.. values.Reverse()]]);
                return ranks[0] == ranks[1]
                    && Math.Abs(ranks.Sum(r => r.CheapestProbability) - 1) < 1e-12;
            }
        );

    [Property(Replay = "(17,19)", MaxTest = 200)]
    public Property Of_DominatedInEveryDraw_NeverFirst() =>
        Prop.ForAll(
            Draws,
            Draws,
            (best, more) =>
            {
                var cheap = best.Select(d => (double)d).ToArray();
                var dear = cheap.Select((c, k) => c + 1 + more[k]).ToArray();
                double[] other = [.. more.Select(m => (double)m)];
                var ranks = RankStability.Of([dear, other, cheap]);
                return ranks[0].CheapestProbability == 0
                    && ranks[0].ExpectedRegret >= ranks[2].ExpectedRegret + 1 - 1e-9;
            }
        );

    [Property(Replay = "(23,29)", MaxTest = 200)]
    public Property PresentValue_PricesScaledAndAdded_IsLinear() =>
        Prop.ForAll(
            Draws,
            Draws,
            (first, second) =>
            {
                var (a, b) = (Priced(first), Priced(second));
                var both = Priced([.. first.Select((x, i) => (3 * x) + (2 * second[i]))]);
                var expected = (3 * Value(a)) + (2 * Value(b));
                return Math.Abs(Value(both) - expected) <= 1e-9 * (1 + Math.Abs(expected));
            }
        );

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.03)]
    [InlineData(0.07)]
    public void EquivalentAnnual_IdenticalCycleRepeated_EqualsThatOfOneCycle(double perYear)
    {
        var rate = new DiscountRate(perYear);
        var one = CashFlow.PresentValue(Cycles(1), rate) * rate.AnnuityFromPresent(25);
        var four = CashFlow.PresentValue(Cycles(4), rate) * rate.AnnuityFromPresent(100);

        Assert.Equal(one, four, 1e-12 * one);
    }

    private static IEnumerable<Payment> Cycles(int count) =>
        Enumerable
            .Range(0, count)
            .SelectMany(c =>
                new Payment[]
                {
                    new(25 * c, 1000, "overlay"),
                    new((25 * c) + 12.5, 150, "patching"),
                    new(25 * (c + 1), -40, "value left"),
                }
            );

    private static PriceList Priced(int[] amounts) =>
        new()
        {
            Currency = "USD",
            PriceYear = 2031,
            RenewalLifeYr = 30,
            Items =
            [
                new("milling", PriceBasis.DeckArea, amounts[0], null),
                new("patching", PriceBasis.RepairedArea, amounts[1], null),
                new("removal", PriceBasis.RemovedVolume, amounts[2], null),
                new("overlay", PriceBasis.PlacedVolume, amounts[3], "dense"),
                new("traffic", PriceBasis.LumpSum, amounts[4], null),
                new("new deck", PriceBasis.RenewedArea, amounts[5], null),
            ],
        };

    private static double Value(PriceList prices) =>
        CashFlow.PresentValue(
            StrategyPayments
                .Intervention(
                    prices,
                    new()
                    {
                        AtYr = 2,
                        DeckAreaM2 = 600,
                        RepairedAreaM2 = 40,
                        RemovedM3 = 9,
                        PlacedM3 = 24,
                        Material = "dense",
                    }
                )
                .Concat(StrategyPayments.Renewal(prices, 600, 27, 60)),
            new(0.04)
        );
}
