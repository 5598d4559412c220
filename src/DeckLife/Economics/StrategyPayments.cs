using System.Collections.Immutable;

namespace DeckLife.Economics;

/// <summary>What a strategy pays over the horizon, from its quantities and the price list.</summary>
public static class StrategyPayments
{
    /// <summary>Payments of one intervention.</summary>
    /// <param name="prices">Price list.</param>
    /// <param name="work">What is done.</param>
    public static ImmutableArray<Payment> Intervention(PriceList prices, WorkQuantities work)
    {
        ArgumentNullException.ThrowIfNull(prices);
        ArgumentNullException.ThrowIfNull(work);
        var payments = ImmutableArray.CreateBuilder<Payment>();
        foreach (var price in prices.Items)
        {
            var quantity = price.Basis switch
            {
                PriceBasis.DeckArea => work.DeckAreaM2,
                PriceBasis.RepairedArea => work.RepairedAreaM2,
                PriceBasis.RemovedVolume => work.RemovedM3,
                PriceBasis.PlacedVolume => work.PlacedM3,
                PriceBasis.LumpSum => 1,
                _ => 0,
            };
            if (quantity != 0 && (price.Material is null || price.Material == work.Material))
            {
                payments.Add(new(work.AtYr, quantity * price.Amount, price.Item));
            }
        }

        return payments.ToImmutable();
    }

    /// <summary>Payments for renewing the deck at its end, and the value that is left of it at the horizon.</summary>
    /// <param name="prices">Price list.</param>
    /// <param name="deckAreaM2">Area of the deck [m²].</param>
    /// <param name="endYr">When the end criterion is met [yr]; infinite where the horizon comes first.</param>
    /// <param name="horizonYr">Horizon [yr].</param>
    /// <remarks>
    /// What is left at the horizon is counted in a straight line over the renewed deck's life. A renewal that would itself end
    /// before the horizon is repeated.
    /// </remarks>
    public static ImmutableArray<Payment> Renewal(
        PriceList prices,
        double deckAreaM2,
        double endYr,
        double horizonYr
    )
    {
        ArgumentNullException.ThrowIfNull(prices);
        var amount = RenewalAmount(prices, deckAreaM2);
        if (amount == 0 || !(endYr < horizonYr))
        {
            return [];
        }

        var payments = ImmutableArray.CreateBuilder<Payment>();
        if (prices.RenewalLifeYr is not { } life)
        {
            payments.Add(new(endYr, amount, "renewal"));
            return payments.ToImmutable();
        }

        var at = endYr;
        for (; at < horizonYr; at += life)
        {
            payments.Add(new(at, amount, "renewal"));
        }

        payments.Add(
            new(horizonYr, -amount * (at - horizonYr) / life, "value left at the horizon")
        );
        return payments.ToImmutable();
    }

    /// <summary>Price of renewing the whole deck; 0 where none is given.</summary>
    /// <param name="prices">Price list.</param>
    /// <param name="deckAreaM2">Area of the deck [m²].</param>
    public static double RenewalAmount(PriceList prices, double deckAreaM2)
    {
        ArgumentNullException.ThrowIfNull(prices);
        return prices.Items.Where(p => p.Basis == PriceBasis.RenewedArea).Sum(p => p.Amount)
            * deckAreaM2;
    }
}
