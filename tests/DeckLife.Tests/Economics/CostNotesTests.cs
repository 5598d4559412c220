using DeckLife.Economics;
using DeckLife.Population;
using DeckLife.Tests.Projection;
using Xunit;

namespace DeckLife.Tests.Economics;

public class CostNotesTests
{
    private static readonly PriceList Known = new()
    {
        Currency = "USD",
        PriceYear = 2031,
        Items = [new("mobilisation", PriceBasis.LumpSum, 20_000, null)],
    };

    [Fact]
    public void For_DeckWithoutPrices_SaysNothing() =>
        Assert.Empty(CostNotes.For(ExampleDecks.Plain with { Prices = null }));

    [Fact]
    public void For_KnownPricesWithoutAnEnd_SaysWhatIsTakenForGranted()
    {
        var notes = Notes(Known);

        Assert.Equal(["present value", "prices", "end of the horizon"], notes.Keys);
        // −500 000 + 200 000/1.1 + 300 000/1.1² + 200 000/1.1³.
        Says(notes["present value"], "80015.03");
        Says(notes["prices"], "USD of 2031", "no growth", "every price is taken as known");
        Says(notes["prices"], "Not said what it includes: mobilisation.");
        Says(notes["end of the horizon"], "costs nothing");
    }

    [Fact]
    public void For_GrowthAndWhatPricesInclude_AreSaid()
    {
        var notes = Notes(
            Known with
            {
                GrowthPerYr = 0.0125,
                Items = [Known.Items[0] with { Includes = "traffic control" }],
            }
        );

        Says(notes["prices"], "growing by 1.25 % a year", "mobilisation includes traffic control.");
        Assert.DoesNotContain("Not said", notes["prices"], StringComparison.Ordinal);
        Assert.DoesNotContain("no growth", notes["prices"], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.1, 0)]
    [InlineData(0, 0.1)]
    public void For_OnePriceOrTheirLevelUncertain_SaysThatTheyAreDrawn(double item, double level) =>
        Says(
            Notes(
                Known with
                {
                    Items = [Known.Items[0] with { CoefficientOfVariation = item }],
                    LevelCoefficientOfVariation = level,
                }
            )["prices"],
            "uncertain prices are drawn"
        );

    [Fact]
    public void For_ActionsAfterTheLimit_AreNamedInOrderWithTheRenewalLast()
    {
        var renewed = new UnitPrice("new deck", PriceBasis.RenewedArea, 900, null);
        var overlay = new NextAction("another overlay", 100, UncertainValue.Exactly(15));

        Says(
            Notes(Known with { AfterLimit = [overlay], Items = [renewed] })["end of the horizon"],
            "met: another overlay, then renewal of the deck; the last",
            "same 60 years"
        );
        Says(
            Notes(Known with { AfterLimit = [overlay] })["end of the horizon"],
            "met: another overlay; the last"
        );
    }

    [Fact]
    public void For_GrowthOfQuantitiesAndUserCosts_AreSaidWhereThereAreSome()
    {
        var notes = Notes(
            Known with
            {
                QuantityGrowth = new(1.3, 0.2, SpreadShape.Lognormal),
                Items =
                [
                    Known.Items[0],
                    new("delay", PriceBasis.ClosureDay, 500, null) { PaidBy = Payer.Users },
                ],
                Stages = 2,
                ClosureDaysPerStage = 3,
                AreaPerClosureDayM2 = 100,
            }
        );

        Says(notes["growth of quantities"], "1.3 times", "variation 0.2");
        // Two stages of 3 days, and 800 m² at 100 m² a day.
        Says(notes["user costs"], "14 days in 2 stages.");
        Says(
            Notes(
                Known with
                {
                    Items = [Known.Items[0] with { PaidBy = Payer.Users }],
                    ClosureDaysPerStage = 3,
                }
            )["user costs"],
            "3 days in 1 stage."
        );
    }

    private static Dictionary<string, string> Notes(PriceList prices) =>
        CostNotes
            .For(ExampleDecks.Plain with { Prices = prices })
            .ToDictionary(n => n.Subject, n => n.Text);

    private static void Says(string text, params string[] parts) =>
        Assert.All(parts, part => Assert.Contains(part, text, StringComparison.Ordinal));
}
