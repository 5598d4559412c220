using System.Collections.Immutable;
using DeckLife.Decisions;
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
    private readonly double[][] userCosts;
    private readonly OrderedDictionary<(string Item, Payer PaidBy), double>[] items;
    private readonly PriceDraw[] drawn;
    private readonly bool hasRenewal;
    private ImmutableArray<StrategyRank>[]? ranks;

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
        hasRenewal = deck.Prices is { PricesTheEnd: true };
        presentValues = [.. rates.Select(_ => plans.Select(_ => new double[draws]).ToArray())];
        firstCosts = [.. plans.Select(_ => new double[draws])];
        userCosts = [.. plans.Select(_ => new double[draws])];
        items = [.. plans.Select(_ => new OrderedDictionary<(string, Payer), double>())];
        drawn = deck.Prices is { } prices
            ?
            [
                .. Enumerable
                    .Range(0, draws)
                    .Select(k => PriceDraw.Of(prices, deck.Analysis.Seed, k)),
            ]
            : [];
    }

    /// <summary>What a reviewer should know about the costs.</summary>
    public ImmutableArray<Diagnostic> Flags =>
        deck.Prices is not null && !hasRenewal ? [DiagnosticCatalogue.NoRenewalPrice.With()] : [];

    /// <summary>Present value of a strategy in each draw, at the deck's rate; empty without prices.</summary>
    public ImmutableArray<double> PresentValues(int strategy) =>
        deck.Prices is null ? [] : [.. presentValues[own][strategy]];

    /// <summary>Present value of a strategy's interventions alone in each draw, at the deck's rate; empty without prices.</summary>
    public ImmutableArray<double> FirstCosts(int strategy) =>
        deck.Prices is null ? [] : [.. firstCosts[strategy]];

    /// <summary>What was drawn of the prices; prices that are known are left out.</summary>
    public IEnumerable<DrawColumn> Inputs()
    {
        if (deck.Prices is not { } prices || drawn.Length == 0)
        {
            return [];
        }

        var columns = new List<(string Name, Func<PriceDraw, double> Value)>
        {
            ("level of all prices", d => d.Level),
            ("growth of quantities", d => d.QuantityGrowth ?? 1),
        };
        columns.AddRange(
            prices.Items.Select(
                (p, i) => ($"price: {p.Item}", (Func<PriceDraw, double>)(d => d.ItemFactors[i]))
            )
        );
        columns.AddRange(
            prices.AfterLimit.SelectMany(
                (a, i) =>
                    new (string, Func<PriceDraw, double>)[]
                    {
                        ($"price: {a.Action}", d => d.ActionFactors[i]),
                        ($"life: {a.Action}", d => d.ActionLivesYr[i]),
                    }
            )
        );
        return columns
            .Select(c => new DrawColumn(c.Name, InputSource.Prices, [.. drawn.Select(c.Value)]))
            .Where(c => DrawRecorder.Varies(c.Values));
    }

    /// <summary>All payments of a strategy in one draw, and those of its interventions alone.</summary>
    /// <param name="deck">The deck; its area and horizon are used.</param>
    /// <param name="prices">The prices.</param>
    /// <param name="plan">The strategy as it would be let.</param>
    /// <param name="draw">What comes of it.</param>
    /// <param name="life">When the limit is met, from the survey [yr]; infinite where it is not.</param>
    /// <param name="price">The draw of the prices.</param>
    public static (Payment[] Works, Payment[] All) PaymentsOf(
        Deck deck,
        PriceList prices,
        StrategyPlan plan,
        StrategyDraw draw,
        double life,
        PriceDraw price
    )
    {
        var works = OfWorks(deck, prices, plan, draw, life, price).ToArray();
        return (
            works,
            [
                .. works,
                .. Upkeep(deck, prices, plan, draw, life, price),
                .. StrategyPayments.Renewal(prices, deck.AreaM2, life, deck.Horizon.Years, price),
            ]
        );
    }

    /// <summary>What the works of a strategy cost in one draw at the prices as listed, whatever state the deck is in; empty without prices.</summary>
    /// <remarks>A program pays for the work that it orders, also on a deck that is past its limit.</remarks>
    public static ImmutableArray<Payment> OfWorks(
        Deck deck,
        StrategyPlan plan,
        StrategyDraw draw
    ) =>
        deck.Prices is { } prices
            ?
            [
                .. OfWorks(
                    deck,
                    prices,
                    plan,
                    draw,
                    double.PositiveInfinity,
                    PriceDraw.AsListed(prices)
                ),
            ]
            : [];

    private static IEnumerable<Payment> OfWorks(
        Deck deck,
        PriceList prices,
        StrategyPlan plan,
        StrategyDraw draw,
        double life,
        PriceDraw price
    ) =>
        Works(deck, plan, draw, life)
            .SelectMany(w => Payments(deck, prices, w.Planned, w.Quantities, price));

    /// <summary>Takes in one strategy.</summary>
    public void Add(int strategy, StrategyDraw[] draws, double[] lives)
    {
        if (deck.Prices is not { } prices)
        {
            return;
        }

        for (var k = 0; k < draws.Length; k++)
        {
            var (first, dated) = PaymentsOf(
                deck,
                prices,
                plans[strategy],
                draws[k],
                lives[k],
                drawn[k]
            );
            firstCosts[strategy][k] = CashFlow.PresentValue(first, rates[own]);
            userCosts[strategy][k] = CashFlow.PresentValue(
                dated.Where(p => p.PaidBy == Payer.Users),
                rates[own]
            );
            foreach (var payment in dated)
            {
                var key = (payment.Item, payment.PaidBy);
                items[strategy].TryGetValue(key, out var sum);
                items[strategy][key] =
                    sum + (payment.Amount * rates[own].PresentWorth(payment.TimeYr) / draws.Length);
            }

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
        var users = userCosts[strategy];
        return projection with
        {
            Cost = new(
                byRate[own].PresentValue,
                byRate[own].EquivalentAnnual,
                prices.Currency,
                prices.PriceYear
            )
            {
                MeanPresentValue = presentValues[own][strategy].Average(),
                Agency = Percentiles.Band([
                    .. presentValues[own][strategy].Select((v, k) => v - users[k]),
                ]),
                Users = prices.Items.Any(i => i.PaidBy == Payer.Users)
                    ? Percentiles.Band([.. users])
                    : null,
                FirstCost = Percentiles.Band([.. firstCosts[strategy]]),
                Items =
                [
                    .. items[strategy].Select(i => new CostItem(i.Key.Item, i.Key.PaidBy, i.Value)),
                ],
            },
            CheapestProbability = byRate[own].CheapestProbability,
            ErrorOfCheapestProbability = ranks?[own][strategy].ErrorOfCheapestProbability,
            ExpectedRegret = ranks?[own][strategy].ExpectedRegret,
            CostByRate = byRate,
        };
    }

    // What would come after the renewal of the deck is not done.
    private static IEnumerable<(PlannedIntervention Planned, WorkQuantities Quantities)> Works(
        Deck deck,
        StrategyPlan plan,
        StrategyDraw draw,
        double life
    )
    {
        // What the survey could have seen is repaired by the first work that repairs damage.
        var atSurvey = draw.Damaged[draw.Grid.Yearly[0]];
        for (var n = 0; n < draw.Interventions.Length; n++)
        {
            if (draw.Interventions[n] is { } work && work.AtYr <= life)
            {
                var planned = plan.Interventions[n];
                yield return (planned, Quantities(deck, planned, work, atSurvey));
                atSurvey = planned.RepairsDamage ? 0 : atSurvey;
            }
        }
    }

    private static WorkQuantities Quantities(
        Deck deck,
        PlannedIntervention planned,
        InterventionDraw work,
        double damagedAtSurvey
    )
    {
        var old = Math.Min(work.Repaired, damagedAtSurvey) * deck.AreaM2;
        return new()
        {
            AtYr = work.AtYr,
            DeckAreaM2 = deck.AreaM2,
            RepairedAreaM2 = (work.Repaired + work.RemovedByPotential) * deck.AreaM2,
            FoundAtSurveyM2 = deck.Surveys.DetectionProbability * old,
            MissedAtSurveyM2 = (1 - deck.Surveys.DetectionProbability) * old,
            RemovedM3 = work.MeanRemovalMm / 1000 * deck.AreaM2,
            PlacedM3 = work.MeanPlacedMm / 1000 * deck.AreaM2,
            Material = planned.Material?.Name,
            GradeRiseMm = planned.Material is null ? 0 : planned.ThicknessMm - planned.LeastDepthMm,
            DepthClasses =
            [
                .. planned.DepthsMm.Select((d, c) => (d, work.ClassShares[c] * deck.AreaM2)),
            ],
        };
    }

    private static IEnumerable<Payment> Payments(
        Deck deck,
        PriceList prices,
        PlannedIntervention planned,
        WorkQuantities quantities,
        PriceDraw draw
    )
    {
        IEnumerable<Payment> payments = StrategyPayments.Intervention(prices, quantities, draw);
        return planned.Protection is { } protection
            ? payments.Concat(
                StrategyPayments.Intervention(
                    prices,
                    quantities with
                    {
                        Material = protection.Name,
                        PlacedM3 = planned.ProtectionThicknessMm / 1000 * deck.AreaM2,
                    },
                    draw,
                    onlyOfMaterial: true
                )
            )
            : payments;
    }

    private static ImmutableArray<Payment> Upkeep(
        Deck deck,
        PriceList prices,
        StrategyPlan plan,
        StrategyDraw draw,
        double life,
        PriceDraw price
    ) =>
        prices.Items.Any(i => i.Basis is PriceBasis.Year or PriceBasis.InterimRepairedArea)
            ? StrategyPayments.Upkeep(
                prices,
                price,
                life,
                deck.Horizon.Years,
                deck.AreaM2,
                year => draw.Damaged[draw.Grid.Yearly[Math.Min(year, draw.Grid.Yearly.Length - 1)]],
                [
                    .. draw
                        .Interventions.Select(
                            (work, n) => (Work: work, Planned: plan.Interventions[n])
                        )
                        .Where(i => i.Work is not null && i.Planned.Material is not null)
                        .Select(i => (i.Planned.Material!.Name, i.Work!.AtYr)),
                ]
            )
            : [];
}
