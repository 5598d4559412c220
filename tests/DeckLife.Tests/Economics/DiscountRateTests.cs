using DeckLife.Economics;
using Xunit;

namespace DeckLife.Tests.Economics;

public class DiscountRateTests
{
    [Fact]
    public void PresentValueFromYearZero_KnownCashFlow_YearZeroNotDiscounted()
    {
        // −500 000 + 200 000/1.1 + 300 000/1.1² + 200 000/1.1³ by hand.
        double[] flow = [-500_000, 200_000, 300_000, 200_000];

        Assert.Equal(80_015.026296, CashFlow.PresentValueFromYearZero(flow, new(0.10)), 1e-5);
    }

    [Theory]
    [InlineData(0.03, 50, 25.72976401)]
    [InlineData(0.04, 25, 15.62207994)]
    [InlineData(0.07, 30, 12.40904118)]
    [InlineData(0, 30, 30)]
    public void PresentWorthOfAnnuity_InterestTables_Match(
        double rate,
        int years,
        double expected
    ) =>
        // Textbook interest tables (P/A); the last by definition.
        Assert.Equal(
            expected,
            new DiscountRate(rate).PresentWorthOfAnnuity(years),
            1e-8 * expected
        );

    [Theory]
    [InlineData(-1)]
    [InlineData(-1.5)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Constructor_RateThatIsNone_IsRefused(double perYear) =>
        Assert.Equal(
            "perYear",
            Assert.Throws<ArgumentOutOfRangeException>(() => new DiscountRate(perYear)).ParamName
        );

    [Fact]
    public void FromNominal_FivePercentOverTwo_IsTheirRatio()
    {
        Assert.Equal((1.05 / 1.02) - 1, DiscountRate.FromNominal(0.05, 0.02).PerYear, 1e-15);
        // Money that halves each year in real terms is worth twice as much a year earlier.
        Assert.Equal(2, new DiscountRate(-0.5).PresentWorth(1));
    }

    [Theory]
    [InlineData(0.04, 20)]
    [InlineData(0.07, 1)]
    public void PresentWorthOfGradient_ClosedForm_Matches(double i, int n)
    {
        // P/G = (P/A − n (1 + i)^−n)/i.
        var rate = new DiscountRate(i);
        var annuity = (1 - Math.Pow(1 + i, -n)) / i;

        Assert.Equal(
            (annuity - (n * Math.Pow(1 + i, -n))) / i,
            rate.PresentWorthOfGradient(n),
            1e-10
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => rate.PresentWorthOfGradient(0));
    }

    [Fact]
    public void PresentWorthOfPerpetualRenewal_IsTheSumOfManyRenewals()
    {
        var rate = new DiscountRate(0.04);
        var sum = Enumerable.Range(0, 200).Sum(n => Math.Pow(1.04, -20 * n));

        Assert.Equal(sum, rate.PresentWorthOfPerpetualRenewal(20), 1e-10);
    }

    [Fact]
    public void PresentValue_DatedPayments_EachByItsDate() =>
        // 100 + 50/1.1^0.5 − 30/1.1².
        Assert.Equal(
            100 + (50 / Math.Sqrt(1.1)) - (30 / 1.21),
            CashFlow.PresentValue(
                [new(0, 100, "a"), new(0.5, 50, "b"), new(2, -30, "c")],
                new(0.1)
            ),
            1e-10
        );

    [Fact]
    public void Renewal_LifeShorterThanTheRest_RepeatsAndCreditsWhatIsLeft()
    {
        var prices = new PriceList
        {
            Currency = "USD",
            PriceYear = 2031,
            Items = [new("new deck", PriceBasis.RenewedArea, 10, null)],
            RenewalLifeYr = 30,
        };

        var payments = StrategyPayments.Renewal(prices, 100, 20, 60);

        // Renewed at 20 and 50; at 60 two thirds of the second renewal's life are left.
        Assert.Equal([20.0, 50, 60], payments.Select(p => p.TimeYr));
        Assert.Equal(1000, payments[1].Amount, 1e-9);
        Assert.Equal(-1000 * 20.0 / 30, payments[2].Amount, 1e-9);
    }

    [Fact]
    public void Renewal_EndBeyondTheHorizon_CostsNothing() =>
        Assert.Empty(
            StrategyPayments.Renewal(
                new()
                {
                    Currency = "USD",
                    PriceYear = 2031,
                    Items = [new("new deck", PriceBasis.RenewedArea, 10, null)],
                },
                100,
                double.PositiveInfinity,
                60
            )
        );

    [Fact]
    public void Intervention_PricesOfAnotherMaterial_AreNotPaid()
    {
        var prices = new PriceList
        {
            Currency = "USD",
            PriceYear = 2031,
            Items =
            [
                new("overlay a", PriceBasis.PlacedVolume, 1000, "a"),
                new("overlay b", PriceBasis.PlacedVolume, 2000, "b"),
                new("traffic", PriceBasis.LumpSum, 7, null),
            ],
        };

        var payments = StrategyPayments.Intervention(
            prices,
            new()
            {
                AtYr = 3,
                DeckAreaM2 = 10,
                PlacedM3 = 2,
                Material = "b",
            }
        );

        Assert.Equal(4007, payments.Sum(p => p.Amount), 1e-9);
    }
}
