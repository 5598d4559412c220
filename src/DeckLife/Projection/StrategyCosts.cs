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
    private readonly double[][] firstCosts;
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
        firstCosts = [.. plans.Select(_ => new double[draws])];
    }

    /// <summary>Present value of a strategy in each draw, at the deck's rate; empty without prices.</summary>
    public ImmutableArray<double> PresentValues(int strategy) =>
        deck.Prices is null ? [] : [.. presentValues[own][strategy]];

    /// <summary>Present value of a strategy's interventions alone in each draw, at the deck's rate; empty without prices.</summary>
    public ImmutableArray<double> FirstCosts(int strategy) =>
        deck.Prices is null ? [] : [.. firstCosts[strategy]];

    /// <summary>What a reviewer should know about the costs.</summary>
    public ImmutableArray<Diagnostic> Flags =>
        deck.Prices is not null && !hasRenewal ? [DiagnosticCatalogue.NoRenewalPrice.With()] : [];

    /// <summary>Payments of a strategy's intervention in one draw; none without prices or an intervention.</summary>
    public static ImmutableArray<Payment> InterventionPayments(
        Deck deck,
        StrategyPlan plan,
        StrategyDraw draw
    )
    {
        if (deck.Prices is not { } prices || draw.Intervention is not { } work)
        {
            return [];
        }

        var planned = plan.Interventions[0];
        return StrategyPayments.Intervention(
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
        );
    }

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
            if (draws[k].Intervention is not null)
            {
                var first = InterventionPayments(deck, plans[strategy], draws[k]);
                firstCosts[strategy][k] = CashFlow.PresentValue(first, rates[own]);
                payments = first.Concat(payments);
            }

            var dated = payments.ToArray();
            for (var r = 0; r < rates.Length; r++)
            {
                presentValues[r][strategy][k] = CashFlow.PresentValue(dated, rates[r]);
            }
        }
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
