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
    private readonly DiscountRate[] rates;
    private readonly int own;

    // Rate, strategy, draw.
    private readonly double[][][] presentValues;
    private ImmutableArray<StrategyRank>[]? ranks;
    private readonly bool hasRenewal;

    /// <summary>Prepares the sums.</summary>
    public StrategyCosts(Deck deck, StrategyPlan[] plans, int draws)
    {
        this.deck = deck;
        this.plans = plans;
        rates =
        [
            .. new[] { 0, deck.DiscountRate, deck.DiscountRate + 0.02 }
                .Distinct()
                .Select(r => new DiscountRate(r)),
        ];
        own = Array.FindIndex(rates, r => r.PerYear == deck.DiscountRate);
        hasRenewal =
            deck.Prices is { } prices && StrategyPayments.RenewalAmount(prices, deck.AreaM2) > 0;
        presentValues = [.. rates.Select(_ => plans.Select(_ => new double[draws]).ToArray())];
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
            for (var n = 0; n < draws[k].Interventions.Length; n++)
            {
                // What would come after the renewal of the deck is not done.
                if (draws[k].Interventions[n] is { } work && work.AtYr <= lives[k])
                {
                    payments = Payments(prices, plans[strategy].Interventions[n], work)
                        .Concat(payments);
                }
            }

            var dated = payments.ToArray();
            for (var r = 0; r < rates.Length; r++)
            {
                presentValues[r][strategy][k] = CashFlow.PresentValue(dated, rates[r]);
            }
        }
    }

    private IEnumerable<Payment> Payments(
        PriceList prices,
        PlannedIntervention planned,
        InterventionDraw work
    )
    {
        var quantities = new WorkQuantities
        {
            AtYr = work.AtYr,
            DeckAreaM2 = deck.AreaM2,
            RepairedAreaM2 = (work.Repaired + work.RemovedByPotential) * deck.AreaM2,
            RemovedM3 = work.MeanRemovalMm / 1000 * deck.AreaM2,
            PlacedM3 = work.MeanPlacedMm / 1000 * deck.AreaM2,
            Material = planned.Material?.Name,
        };
        IEnumerable<Payment> payments = StrategyPayments.Intervention(prices, quantities);
        return planned.Protection is { } protection
            ? payments.Concat(
                StrategyPayments.Intervention(
                    prices with
                    {
                        Items = [.. prices.Items.Where(p => p.Material == protection.Name)],
                    },
                    quantities with
                    {
                        Material = protection.Name,
                        PlacedM3 = planned.ProtectionThicknessMm / 1000 * deck.AreaM2,
                    }
                )
            )
            : payments;
    }

    /// <summary>Adds the costs to a strategy's projection.</summary>
    public StrategyProjection Complete(int strategy, StrategyProjection projection)
    {
        if (deck.Prices is not { } prices)
        {
            return projection;
        }

        // Complete is called when all strategies are in: ranks are made once.
        if (hasRenewal)
        {
            ranks ??= [.. presentValues.Select(v => RankStability.Of(v))];
        }

        var byRate = rates
            .Select(
                (rate, r) =>
                {
                    var band = Percentiles.Band([.. presentValues[r][strategy]]);
                    return new CostAtRate(
                        rate.PerYear,
                        band,
                        band.P50 * rate.AnnuityFromPresent(deck.Horizon.Years),
                        ranks?[r][strategy].CheapestProbability
                    );
                }
            )
            .ToImmutableArray();
        return projection with
        {
            Cost = new(
                byRate[own].PresentValue,
                byRate[own].EquivalentAnnual,
                prices.Currency,
                prices.PriceYear
            ),
            CheapestProbability = byRate[own].CheapestProbability,
            ExpectedRegret = ranks?[own][strategy].ExpectedRegret,
            CostByRate = byRate,
        };
    }
}
