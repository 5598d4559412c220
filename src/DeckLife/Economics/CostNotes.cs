using DeckLife.Population;
using static System.FormattableString;

namespace DeckLife.Economics;

/// <summary>What the costs take for granted.</summary>
internal static class CostNotes
{
    private static readonly double[] Example = [-500_000, 200_000, 300_000, 200_000];

    /// <summary>The conventions and the settings of a deck's prices; nothing without prices.</summary>
    public static IEnumerable<Assumption> For(Deck deck)
    {
        if (deck.Prices is not { } prices)
        {
            yield break;
        }

        yield return new(
            "present value",
            Invariant(
                $"Money at time 0 counts in full, money at t years is divided by (1 + rate)^t: -500000 at year 0, then 200000, 300000 and 200000 at years 1 to 3, are worth {CashFlow.PresentValueFromYearZero(Example, new(0.10)):0.00} at 10 % a year. Spreadsheet functions that discount the first amount too give less by the factor 1.10."
            ),
            "the default convention; the rate is real, beyond inflation"
        );
        yield return new(
            "prices",
            Invariant(
                $"{prices.Currency} of {prices.PriceYear}{(prices.GrowthPerYr == 0 ? "; no growth beyond inflation" : Invariant($"; growing by {100 * prices.GrowthPerYr:0.##} % a year beyond inflation"))}; {(prices.Items.Any(i => i.CoefficientOfVariation > 0) || prices.LevelCoefficientOfVariation > 0 ? "uncertain prices are drawn, the same for all strategies" : "every price is taken as known")}. {Included(prices)}"
            ),
            "the deck's price list"
        );
        yield return new(
            "end of the horizon",
            prices.PricesTheEnd
                ? Invariant(
                    $"All strategies are compared over the same {deck.Horizon.Years:0.#} years. When the end criterion is met: {string.Join(", then ", prices.AfterLimit.Select(a => a.Action).Concat(prices.Items.Any(i => i.Basis == PriceBasis.RenewedArea) ? ["renewal of the deck"] : []))}; the last of them is repeated, and what is left of it at the horizon is counted in a straight line over its life."
                )
                : "Reaching the end criterion costs nothing here: no strategy is called the cheapest.",
            "the deck's price list"
        );
        if (prices.QuantityGrowth is { } growth)
        {
            yield return new(
                "growth of quantities",
                Invariant(
                    $"Re-sounding on the day of the survey would find {growth.Mean:0.##} times the unsound area that the survey found (coefficient of variation {growth.CoefficientOfVariation:0.##}), in place of what the model takes it to have missed; damage since the survey comes on top by the model. Removed and placed volumes do not grow with it."
                ),
                "the deck's price list"
            );
        }

        if (prices.Items.Any(i => i.PaidBy == Payer.Users))
        {
            yield return new(
                "user costs",
                Invariant(
                    $"What users bear stands apart from what the agency pays; strategies are ranked by the sum. An intervention closes for {prices.ClosureDays(deck.AreaM2):0.#} days in {prices.Stages} stage{(prices.Stages == 1 ? "" : "s")}."
                ),
                "the deck's price list"
            );
        }
    }

    private static string Included(PriceList prices)
    {
        var silent = prices.Items.Where(i => i.Includes is null).Select(i => i.Item).ToArray();
        return string.Concat(
                prices
                    .Items.Where(i => i.Includes is not null)
                    .Select(i => $"{i.Item} includes {i.Includes}. ")
            )
            + (
                silent.Length == 0 ? "" : $"Not said what it includes: {string.Join(", ", silent)}."
            );
    }
}
