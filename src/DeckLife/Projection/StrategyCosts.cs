using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Economics;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What the strategies cost, draw by draw, and how often each is the cheapest.</summary>
internal sealed class StrategyCosts
{
    private readonly Deck deck;
    private readonly StrategyPlan[] plans;
    private readonly double[][] presentValues;
    private readonly DiscountRate rate;
    private readonly bool hasRenewal;

    /// <summary>Prepares the sums.</summary>
    public StrategyCosts(Deck deck, StrategyPlan[] plans, int draws)
    {
        this.deck = deck;
        this.plans = plans;
        rate = new(deck.DiscountRate);
        hasRenewal =
            deck.Prices is { } prices && StrategyPayments.RenewalAmount(prices, deck.AreaM2) > 0;
        presentValues = [.. plans.Select(_ => new double[draws])];
    }

    /// <summary>What a reviewer should know about the costs.</summary>
    public ImmutableArray<Diagnostic> Flags =>
        deck.Prices is not null && !hasRenewal ? [DiagnosticCatalogue.NoRenewalPrice.With()] : [];

    /// <summary>Takes in one strategy.</summary>
    public void Add(int strategy, StrategyDraw[] draws, double[] lives)
    {
        if (deck.Prices is not { } prices)
        {
            return;
        }

        for (var k = 0; k < draws.Length; k++)
        {
            var payments = StrategyPayments
                .Renewal(prices, deck.AreaM2, lives[k], deck.Horizon.Years)
                .AsEnumerable();
            if (draws[k].Intervention is { } work)
            {
                var planned = plans[strategy].Interventions[0];
                payments = StrategyPayments
                    .Intervention(
                        prices,
                        new()
                        {
                            AtYr = planned.AtYr,
                            DeckAreaM2 = deck.AreaM2,
                            RepairedAreaM2 = work.Repaired * deck.AreaM2,
                            RemovedM3 = work.MeanRemovalMm / 1000 * deck.AreaM2,
                            PlacedM3 = work.MeanPlacedMm / 1000 * deck.AreaM2,
                            Material = planned.Material?.Name,
                        }
                    )
                    .Concat(payments);
            }

            presentValues[strategy][k] = CashFlow.PresentValue(payments, rate);
        }
    }

    /// <summary>Adds the costs to a strategy's projection.</summary>
    public StrategyProjection Complete(int strategy, StrategyProjection projection)
    {
        if (deck.Prices is not { } prices)
        {
            return projection;
        }

        var band = Percentiles.Band([.. presentValues[strategy]]);
        return projection with
        {
            Cost = new(
                band,
                band.P50 * rate.AnnuityFromPresent(deck.Horizon.Years),
                prices.Currency,
                prices.PriceYear
            ),
            CheapestProbability = hasRenewal ? CheapestShare(strategy) : null,
        };
    }

    // Draws where the strategy costs least; draws where several cost the same are shared between them.
    private double CheapestShare(int strategy)
    {
        var draws = presentValues[strategy].Length;
        var wins = 0.0;
        for (var k = 0; k < draws; k++)
        {
            var least = presentValues.Min(v => v[k]);
            if (presentValues[strategy][k] == least)
            {
                wins += 1.0 / presentValues.Count(v => v[k] == least);
            }
        }

        return wins / draws;
    }
}
