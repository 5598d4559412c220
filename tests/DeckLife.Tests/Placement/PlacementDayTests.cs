using DeckLife.Placement;
using Xunit;

namespace DeckLife.Tests.Placement;

public class PlacementDayTests
{
    // 0.6444662762 kg/m²/h; band 0.38668 to 0.90225.
    private static readonly PlacementReading Mild = new("08:00", 20, 25, 0.6, 15);

    [Theory]
    [InlineData(0.95, BandOutcome.Below)]
    [InlineData(0.65, BandOutcome.Straddles)]
    [InlineData(0.40, BandOutcome.Straddles)]
    [InlineData(0.35, BandOutcome.Above)]
    public void Compare_LimitAgainstTheBand_HasThreeOutcomes(double limit, BandOutcome expected)
    {
        var hour = Assert.Single(
            PlacementDay.Compare([Mild], new() { GreatestEvaporationKgPerM2H = limit })
        );

        Assert.Equal(expected, hour.EvaporationOutcome);
        Assert.Equal(0.6444662762, hour.Evaporation.Estimate, 1e-9);
        Assert.Null(hour.AirOutcome);
    }

    [Fact]
    public void Compare_AirWithMargin_StraddlesNearTheLimit()
    {
        var limits = new PlacementLimits { LeastAirC = 7, AirMarginC = 2 };
        var hours = PlacementDay.Compare(
            [Mild with { AirC = 4 }, Mild with { AirC = 8 }, Mild],
            limits
        );

        Assert.Equal(
            [BandOutcome.Below, BandOutcome.Straddles, BandOutcome.Above],
            hours.Select(h => h.AirOutcome!.Value)
        );
        Assert.All(hours, h => Assert.Null(h.EvaporationOutcome));
    }

    [Fact]
    public void Uno1998_WarmHumidAirOverColdConcrete_CondensesInsteadOfNegative() =>
        Assert.Equal(0, EvaporationRate.Uno1998(new("", 30, 10, 1, 10)).Estimate);

    [Fact]
    public void Uno1998_MoreWindOrDrierAir_MoreEvaporation()
    {
        var rate = EvaporationRate.Uno1998(Mild).Estimate;

        Assert.True(EvaporationRate.Uno1998(Mild with { WindKmPerH = 16 }).Estimate > rate);
        Assert.True(EvaporationRate.Uno1998(Mild with { RelativeHumidity = 0.5 }).Estimate > rate);
    }

    [Theory]
    [InlineData(double.NaN, 25, 0.5, 10)]
    [InlineData(20, 80, 0.5, 10)]
    [InlineData(20, 25, 50, 10)]
    [InlineData(20, 25, 0.5, -1)]
    public void Compare_ImpossibleReading_IsRefused(
        double air,
        double concrete,
        double humidity,
        double wind
    ) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            PlacementDay.Compare([new("", air, concrete, humidity, wind)], new())
        );
}
