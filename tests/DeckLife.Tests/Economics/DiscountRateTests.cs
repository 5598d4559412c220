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
