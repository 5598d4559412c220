using DeckLife.Economics;
using DeckLife.Population;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Tests.Economics;

public class StrategyPaymentsTests
{
    private static readonly WorkQuantities Work = new()
    {
        AtYr = 2,
        DeckAreaM2 = 600,
        RepairedAreaM2 = 55,
        FoundAtSurveyM2 = 36,
        MissedAtSurveyM2 = 4,
        RemovedM3 = 9,
        PlacedM3 = 24,
        Material = "dense",
        GradeRiseMm = 25,
        DepthClasses = [(12, 400), (40, 200)],
    };

    private static readonly Arbitrary<double[]> Amounts = Gen.Choose(0, 1000)
        .Select(a => (double)a)
        .ArrayOf(12)
        .Where(a => a.Length == 12)
        .ToArbitrary();

    [Fact]
    public void Intervention_EveryBasis_QuantityTimesPriceByHand()
    {
        var prices = List(
            new("area", PriceBasis.DeckArea, 2, null),
            new("repair", PriceBasis.RepairedArea, 10, null),
            new("removal", PriceBasis.RemovedVolume, 100, null),
            new("overlay", PriceBasis.PlacedVolume, 50, "dense"),
            new("other overlay", PriceBasis.PlacedVolume, 50, "other"),
            new("mobilisation", PriceBasis.LumpSum, 7, null),
            new("shallow", PriceBasis.RemovedArea, 3, null) { ToDepthMm = 12 },
            new("deep", PriceBasis.RemovedArea, 5, null) { FromDepthMm = 12 },
            new("staging", PriceBasis.Stage, 11, null),
            new("delay", PriceBasis.ClosureDay, 13, null) { PaidBy = Payer.Users },
            new("joints", PriceBasis.GradeRise, 17, null)
        ) with
        {
            Stages = 3,
            ClosureDaysPerStage = 4,
            AreaPerClosureDayM2 = 60,
            QuantityGrowth = new(1.5, 0, SpreadShape.Lognormal),
        };

        var paid = StrategyPayments.Intervention(prices, Work).ToDictionary(p => p.Item);

        Assert.Equal(1200, paid["area"].Amount);
        // 55 m² damaged at the work: 36 found at the survey, 4 missed then, 15 since. Re-sounding then finds 1.5 times 36, the 4 among them.
        Assert.Equal((54 + 15) * 10, paid["repair"].Amount);
        Assert.Equal(900, paid["removal"].Amount);
        Assert.Equal(1200, paid["overlay"].Amount);
        Assert.False(paid.ContainsKey("other overlay"));
        Assert.Equal(7, paid["mobilisation"].Amount);
        Assert.Equal(1200, paid["shallow"].Amount);
        Assert.Equal(1000, paid["deep"].Amount);
        Assert.Equal(33, paid["staging"].Amount);
        // 3 stages of 4 days and 600 m² at 60 m² a day: 22 days.
        Assert.Equal(22 * 13, paid["delay"].Amount);
        Assert.Equal(Payer.Users, paid["delay"].PaidBy);
        Assert.Equal(425, paid["joints"].Amount);
        Assert.All(paid.Values, p => Assert.Equal(2, p.TimeYr));
    }

    [Theory]
    [InlineData(null, 55)] // 36 found, 4 missed and 15 since, each once
    [InlineData(1.0, 51)] // nothing missed: 36 and 15
    [InlineData(1.1111111111111112, 55)] // 40 at the survey and 15 since: the model's own miss at a detection of 0.9
    [InlineData(2.0, 87)] // 72 at the survey and 15 since
    [InlineData(30.0, 600)] // never more than the deck
    public void Intervention_GrowthOnReSounding_CountsTheMissOfTheSurveyOnlyAndEachSquareMetreOnce(
        double? growth,
        double repairedM2
    )
    {
        var prices = List(new UnitPrice("repair", PriceBasis.RepairedArea, 1, null)) with
        {
            QuantityGrowth = growth is { } mean ? UncertainValue.Exactly(mean) : null,
        };

        Assert.Equal(repairedM2, StrategyPayments.Intervention(prices, Work).Single().Amount, 1e-9);
    }

    [Fact]
    public void Intervention_GradeNotRaised_NothingIsPaidForIt() =>
        Assert.Empty(
            StrategyPayments.Intervention(
                List(new UnitPrice("joints", PriceBasis.GradeRise, 17, null)),
                Work with
                {
                    GradeRiseMm = -5,
                }
            )
        );

    [Fact]
    public void Intervention_PriceGrowth_CompoundsToItsDate()
    {
        var prices = List(
            new("all", PriceBasis.LumpSum, 100, null),
            new("own", PriceBasis.LumpSum, 100, null) { GrowthPerYr = 0.10 }
        ) with
        {
            GrowthPerYr = 0.01,
        };

        var paid = StrategyPayments.Intervention(prices, Work);

        Assert.Equal(102.01, paid[0].Amount, 1e-10);
        Assert.Equal(121, paid[1].Amount, 1e-10);
    }

    [Fact]
    public void Upkeep_YearlyPrices_UntilTheEndAndFromThePlacing()
    {
        var prices = List(
            new("deck", PriceBasis.Year, 5, null),
            new("overlay", PriceBasis.Year, 7, "dense")
        );

        var paid = StrategyPayments.Upkeep(prices, null, 6.5, 60, 600, _ => 0, [("dense", 3)]);

        Assert.Equal([1, 2, 3, 4, 5, 6], paid.Where(p => p.Item == "deck").Select(p => p.TimeYr));
        Assert.Equal([4, 5, 6], paid.Where(p => p.Item == "overlay").Select(p => p.TimeYr));
        Assert.Equal((6 * 5) + (3 * 7), paid.Sum(p => p.Amount));
    }

    [Fact]
    public void Upkeep_InterimRepairs_OnlyWhatGrewSinceTheLastVisit()
    {
        var prices = List(
            new UnitPrice("cold patch", PriceBasis.InterimRepairedArea, 10, null)
        ) with
        {
            InterimRepairEveryYr = 5,
        };
        // 1 % a year, back to 0 by an overlay at year 7.
        double Damaged(int year) => year < 7 ? 0.01 * year : 0.01 * (year - 7);

        var paid = StrategyPayments.Upkeep(
            prices,
            null,
            double.PositiveInfinity,
            15,
            600,
            Damaged,
            []
        );

        // Visits at 5 (0.05), 10 (0.03, less than before) and 15 (0.08).
        Assert.Equal([5, 15], paid.Select(p => p.TimeYr));
        Assert.Equal(0.05 * 600 * 10, paid[0].Amount, 1e-9);
        Assert.Equal(0.05 * 600 * 10, paid[1].Amount, 1e-9);
    }

    [Fact]
    public void Renewal_AnotherOverlayThenNewDeck_DatesAndValueLeftByHand()
    {
        var prices = List(new UnitPrice("new deck", PriceBasis.RenewedArea, 900, null)) with
        {
            RenewalLifeYr = 80,
            AfterLimit = [new("another overlay", 100, UncertainValue.Exactly(15))],
        };

        var paid = StrategyPayments.Renewal(prices, 600, 20, 60);

        Assert.Equal(
            [
                ("another overlay", 20.0, 60_000.0),
                ("renewal", 35, 540_000),
                ("value left at the horizon", 60, -540_000 * 55 / 80.0),
            ],
            paid.Select(p => (p.Item, p.TimeYr, Math.Round(p.Amount, 6)))
        );
    }

    [Fact]
    public void Renewal_OnlyOverlaysAfterTheLimit_LastIsRepeated()
    {
        var prices = List() with
        {
            AfterLimit = [new("another overlay", 100, UncertainValue.Exactly(15))],
        };

        var paid = StrategyPayments.Renewal(prices, 600, 20, 60);

        Assert.Equal([20.0, 35, 50, 60], paid.Select(p => p.TimeYr));
        Assert.Equal(-60_000 * 5 / 15.0, paid[^1].Amount, 1e-9);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(60)]
    public void Renewal_EndBeyondAnyHorizon_CostsNothing(double horizon) =>
        Assert.Empty(
            StrategyPayments.Renewal(
                List(new UnitPrice("new deck", PriceBasis.RenewedArea, 900, null)),
                600,
                double.PositiveInfinity,
                horizon
            )
        );

    [Fact]
    public void Renewal_HorizonOfOneYearAndNoRate_StillAddsUp()
    {
        var prices = List(new UnitPrice("new deck", PriceBasis.RenewedArea, 900, null)) with
        {
            RenewalLifeYr = 75,
        };

        var value = CashFlow.PresentValue(
            StrategyPayments.Renewal(prices, 1, 0.25, 1),
            new DiscountRate(0)
        );

        // Paid in full, 74.25 of 75 years left.
        Assert.Equal(900 * 0.75 / 75, value, 1e-9);
        Assert.Equal(value, value * new DiscountRate(0).AnnuityFromPresent(1), 1e-15);
    }

    [Fact]
    public void Intervention_SecondLayerOfTheSameWork_PaysForItsMaterialOnly()
    {
        var prices = List(
            new("overlay", PriceBasis.PlacedVolume, 50, "dense"),
            new("any overlay", PriceBasis.PlacedVolume, 1, null),
            new("mobilisation", PriceBasis.LumpSum, 7, null)
        );

        var paid = StrategyPayments.Intervention(prices, Work, onlyOfMaterial: true);

        Assert.Equal(1200, Assert.Single(paid).Amount);
    }

    [Fact]
    public void Intervention_DepthClasses_UpperEndIsInTheClass()
    {
        // 400 m² at 12 mm and 200 m² at 40 mm.
        var prices = List(
            new("to 12", PriceBasis.RemovedArea, 1, null) { ToDepthMm = 12 },
            new("12 to 40", PriceBasis.RemovedArea, 1, null) { FromDepthMm = 12, ToDepthMm = 40 },
            new("over 40", PriceBasis.RemovedArea, 1, null) { FromDepthMm = 40 },
            new("to 30", PriceBasis.RemovedArea, 1, null) { FromDepthMm = 11, ToDepthMm = 30 }
        );

        Assert.Equal(
            [("to 12", 400.0), ("12 to 40", 200), ("to 30", 400)],
            StrategyPayments.Intervention(prices, Work).Select(p => (p.Item, p.Amount))
        );
    }

    [Fact]
    public void Intervention_GrowthLessThanWhatWasMissed_NeverBelowNothing() =>
        // Nothing damaged since, and re-sounding finds nothing of the 36 found then.
        Assert.Empty(
            StrategyPayments.Intervention(
                List(new UnitPrice("repair", PriceBasis.RepairedArea, 1, null)) with
                {
                    QuantityGrowth = UncertainValue.Exactly(0),
                },
                Work with
                {
                    RepairedAreaM2 = 38,
                }
            )
        );

    [Fact]
    public void Payments_LevelOfTheMarket_IsTheAgencysAlone()
    {
        var prices = List(
            new("work", PriceBasis.LumpSum, 100, null),
            new("delay", PriceBasis.LumpSum, 100, null) { PaidBy = Payer.Users }
        );
        var draw = PriceDraw.AsListed(prices) with { Level = 1.2, ItemFactors = [1.5, 2] };

        var paid = StrategyPayments.Intervention(prices, Work, draw);

        Assert.Equal([180.0, 200], paid.Select(p => Math.Round(p.Amount, 9)));
    }

    [Fact]
    public void Upkeep_EndOnAWholeYear_PaidInThatYearStill()
    {
        var prices = List(new UnitPrice("deck", PriceBasis.Year, 5, null));

        Assert.Equal(
            [1.0, 2, 3],
            StrategyPayments.Upkeep(prices, null, 3, 60, 600, _ => 0, []).Select(p => p.TimeYr)
        );
        Assert.Equal(2, StrategyPayments.Upkeep(prices, null, 30, 2.9, 600, _ => 0, []).Length);
        // Of a material that is never placed, or not again: from its first placing on.
        var overlay = List(new UnitPrice("overlay", PriceBasis.Year, 7, "dense"));
        Assert.Empty(StrategyPayments.Upkeep(overlay, null, 5, 60, 600, _ => 0, [("other", 1)]));
        Assert.Equal(
            [3.0, 4, 5],
            StrategyPayments
                .Upkeep(overlay, null, 5, 60, 600, _ => 0, [("dense", 4), ("dense", 2)])
                .Select(p => p.TimeYr)
        );
    }

    [Theory]
    [InlineData(null, new double[] { })]
    [InlineData(0.5, new double[] { })] // not more often than once a year
    [InlineData(1.0, new double[] { 1, 2, 3, 4 })]
    [InlineData(1.5, new double[] { 1.5, 3 })] // damage is known at whole years
    public void Upkeep_VisitsForInterimRepairs_AtTheirInterval(double? every, double[] expected)
    {
        var prices = List(
            new UnitPrice("cold patch", PriceBasis.InterimRepairedArea, 10, null)
        ) with
        {
            InterimRepairEveryYr = every,
        };

        var paid = StrategyPayments.Upkeep(prices, null, 4, 60, 600, y => 0.02 + (0.01 * y), []);

        Assert.Equal(expected, paid.Select(p => p.TimeYr));
        // What is damaged at the survey is no growth since the last visit.
        Assert.Equal(
            expected.Length == 0 ? 0 : 0.01 * Math.Floor(expected[^1]) * 600 * 10,
            paid.Sum(p => p.Amount),
            1e-9
        );
    }

    [Fact]
    public void Upkeep_OfADraw_FactorAndLevel_AndNothingWhereNothingGrew()
    {
        var prices = List(
            new("deck", PriceBasis.Year, 5, null),
            new("cold patch", PriceBasis.InterimRepairedArea, 10, null)
        ) with
        {
            InterimRepairEveryYr = 1,
        };
        var draw = PriceDraw.AsListed(prices) with { Level = 2, ItemFactors = [3, 1] };

        var paid = StrategyPayments.Upkeep(prices, draw, 2, 60, 600, _ => 0.1, []);

        Assert.Equal([30.0, 30], paid.Select(p => p.Amount));
    }

    [Fact]
    public void Renewal_LifeDrawnAsNextToNothing_IsAYear()
    {
        var prices = List() with
        {
            AfterLimit = [new("another overlay", 100, UncertainValue.Exactly(0.01))],
        };

        var paid = StrategyPayments.Renewal(prices, 600, 57, 60);

        Assert.Equal([57.0, 58, 59], paid.Select(p => p.TimeYr));
    }

    [Fact]
    public void Renewal_OfADraw_PriceFactorLevelLifeAndGrowth()
    {
        var prices = List() with
        {
            AfterLimit = [new("another overlay", 100, UncertainValue.Exactly(15))],
            GrowthPerYr = 0.02,
        };
        var draw = PriceDraw.AsListed(prices) with
        {
            Level = 1.1,
            ActionFactors = [1.3],
            ActionLivesYr = [40],
        };

        var paid = StrategyPayments.Renewal(prices, 600, 30, 60, draw);

        var atToday = 100 * 600 * 1.1 * 1.3;
        Assert.Equal(atToday * Math.Pow(1.02, 30), paid[0].Amount, 1e-6);
        // Ten of forty years are left, at the price of that day.
        Assert.Equal(-atToday * 0.25 * Math.Pow(1.02, 60), paid[1].Amount, 1e-6);
        Assert.Equal(2, paid.Length);
    }

    [Fact]
    public void Renewal_WhatUsersBear_IsNotLeftAtTheHorizon()
    {
        var prices = List(
            new("new deck", PriceBasis.RenewedArea, 900, null),
            new("joints", PriceBasis.RenewedArea, 100, null),
            new("delay", PriceBasis.RenewedArea, 50, null) { PaidBy = Payer.Users }
        ) with
        {
            RenewalLifeYr = 80,
        };

        var paid = StrategyPayments.Renewal(prices, 1, 20, 60);

        Assert.Equal([900.0, 100, 50, -1000 * 40 / 80.0], paid.Select(p => p.Amount));
        Assert.Equal(1050 * 3, StrategyPayments.RenewalAmount(prices, 3));
        Assert.Equal(0, StrategyPayments.RenewalAmount(List(), 3));
    }

    [Fact]
    public void Renewal_NoLifeStatedOrEndAtTheHorizon_NothingIsLeftOrPaid()
    {
        var prices = List(new UnitPrice("new deck", PriceBasis.RenewedArea, 900, null));

        Assert.Equal(900, Assert.Single(StrategyPayments.Renewal(prices, 1, 20, 60)).Amount);
        Assert.Empty(StrategyPayments.Renewal(prices, 1, 60, 60));
        // A life that ends with the horizon leaves nothing, and starts nothing anew.
        Assert.Single(StrategyPayments.Renewal(prices with { RenewalLifeYr = 40 }, 1, 20, 60));
        // A renewal that costs nothing does not price the end.
        Assert.Empty(
            StrategyPayments.Renewal(
                List(new UnitPrice("new deck", PriceBasis.RenewedArea, 0, null)) with
                {
                    RenewalLifeYr = 40,
                },
                1,
                20,
                60
            )
        );
    }

    [Fact]
    public void ClosureDays_StagesAndArea_Add()
    {
        var prices = List() with { Stages = 2, ClosureDaysPerStage = 3 };

        Assert.Equal(6, prices.ClosureDays(500));
        Assert.Equal(11, (prices with { AreaPerClosureDayM2 = 100 }).ClosureDays(500));
        Assert.False(prices.PricesTheEnd);
    }

    [Fact]
    public void PriceDraw_NothingUncertain_IsAsListedToTheBit()
    {
        var prices = List(new UnitPrice("a", PriceBasis.LumpSum, 3, null)) with
        {
            AfterLimit = [new("b", 2, UncertainValue.Exactly(9))],
        };
        var (listed, drawn) = (PriceDraw.AsListed(prices), PriceDraw.Of(prices, 5, 77));

        Assert.Equal(listed.ItemFactors.AsEnumerable(), drawn.ItemFactors);
        Assert.Equal(listed.ActionLivesYr.AsEnumerable(), drawn.ActionLivesYr);
        Assert.Equal(1, drawn.Level);
        Assert.Null(drawn.QuantityGrowth);
    }

    [Fact]
    public void PriceDraw_UncertainPrice_HasItsMeanAndSpread()
    {
        var prices = List(
            new UnitPrice("a", PriceBasis.LumpSum, 3, null) { CoefficientOfVariation = 0.3 }
        ) with
        {
            LevelCoefficientOfVariation = 0.1,
        };
        const int Draws = 20_000;
        var draws = Enumerable.Range(0, Draws).Select(k => PriceDraw.Of(prices, 5, k)).ToArray();

        var factors = draws.Select(d => d.ItemFactors[0]).ToArray();
        var levels = draws.Select(d => d.Level).ToArray();

        // Four standard errors of a mean; the spread of a spread is wider, 5 % is over four of them.
        Assert.Equal(1, factors.Average(), 4 * 0.3 / Math.Sqrt(Draws));
        Assert.Equal(1, levels.Average(), 4 * 0.1 / Math.Sqrt(Draws));
        Assert.Equal(0.3, Math.Sqrt(factors.Average(f => (f - 1) * (f - 1))), 0.05 * 0.3);
    }

    [Property(Replay = "(31,37)", MaxTest = 200)]
    public Property AllBases_PricesScaledAndAdded_PresentValueIsLinear() =>
        Prop.ForAll(
            Amounts,
            Amounts,
            (first, second) =>
            {
                var both = first.Select((a, i) => (2 * a) + (5 * second[i])).ToArray();
                var expected = (2 * Value(first)) + (5 * Value(second));
                return Math.Abs(Value(both) - expected) <= 1e-9 * (1 + Math.Abs(expected));
            }
        );

    private static double Value(double[] amounts)
    {
        var prices = List([
            .. Enum.GetValues<PriceBasis>()
                .Select((b, i) => new UnitPrice(b.ToString(), b, amounts[i], null)),
        ]) with
        {
            RenewalLifeYr = 50,
            Stages = 2,
            ClosureDaysPerStage = 3,
            InterimRepairEveryYr = 4,
            GrowthPerYr = 0.01,
        };
        // A draw that is not at the means, the same for every list.
        var draw = PriceDraw.AsListed(prices) with
        {
            Level = 1.3,
            QuantityGrowth = 1.2,
            ItemFactors = [.. amounts.Select((_, i) => 0.8 + (0.05 * i))],
        };
        return CashFlow.PresentValue(
            [
                .. StrategyPayments.Intervention(prices, Work, draw),
                .. StrategyPayments.Upkeep(prices, draw, 31, 60, 600, y => 0.004 * y, []),
                .. StrategyPayments.Renewal(prices, 600, 31, 60, draw),
            ],
            new(0.04)
        );
    }

    private static PriceList List(params UnitPrice[] items) =>
        new()
        {
            Currency = "USD",
            PriceYear = 2031,
            Items = [.. items],
        };
}
