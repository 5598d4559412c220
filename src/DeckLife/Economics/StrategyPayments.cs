using System.Collections.Immutable;

namespace DeckLife.Economics;

/// <summary>What a strategy pays over the horizon, from its quantities and the price list.</summary>
public static class StrategyPayments
{
    /// <summary>Shortest time between two actions after the limit [yr]: a life drawn as next to nothing must not make them endless.</summary>
    private const double LeastLifeYr = 1;

    /// <summary>Payments of one intervention.</summary>
    /// <param name="prices">Price list.</param>
    /// <param name="work">What is done.</param>
    /// <param name="draw">A draw of the prices; absent: as listed.</param>
    /// <param name="onlyOfMaterial">Whether only the prices of the material count: for a second layer of the same work.</param>
    public static ImmutableArray<Payment> Intervention(
        PriceList prices,
        WorkQuantities work,
        PriceDraw? draw = null,
        bool onlyOfMaterial = false
    )
    {
        ArgumentNullException.ThrowIfNull(prices);
        ArgumentNullException.ThrowIfNull(work);
        draw ??= PriceDraw.AsListed(prices);
        var payments = ImmutableArray.CreateBuilder<Payment>();
        for (var i = 0; i < prices.Items.Length; i++)
        {
            var price = prices.Items[i];
            var quantity = price.Basis switch
            {
                PriceBasis.DeckArea => work.DeckAreaM2,
                PriceBasis.RepairedArea => Repaired(work, draw),
                PriceBasis.RemovedVolume => work.RemovedM3,
                PriceBasis.PlacedVolume => work.PlacedM3,
                PriceBasis.LumpSum => 1,
                PriceBasis.RemovedArea => work
                    .DepthClasses.Where(c =>
                        c.DepthMm > price.FromDepthMm
                        && c.DepthMm <= (price.ToDepthMm ?? double.MaxValue)
                    )
                    .Sum(c => c.AreaM2),
                PriceBasis.Stage => prices.Stages,
                PriceBasis.ClosureDay => prices.ClosureDays(work.DeckAreaM2),
                PriceBasis.GradeRise => Math.Max(0, work.GradeRiseMm),
                _ => 0,
            };
            var counts = price.Material is null ? !onlyOfMaterial : price.Material == work.Material;
            if (quantity != 0 && counts)
            {
                payments.Add(Paid(prices, draw, i, work.AtYr, quantity));
            }
        }

        return payments.ToImmutable();
    }

    /// <summary>What is paid every year until the end, and for interim repairs.</summary>
    /// <param name="prices">Price list.</param>
    /// <param name="draw">A draw of the prices; absent: as listed.</param>
    /// <param name="endYr">When the end criterion is met [yr]; infinite where the horizon comes first.</param>
    /// <param name="horizonYr">Horizon [yr].</param>
    /// <param name="deckAreaM2">Area of the deck [m²].</param>
    /// <param name="damagedAt">Share of the area damaged at a whole year.</param>
    /// <param name="placed">When each material was placed [yr], for prices of one material.</param>
    /// <remarks>
    /// A yearly price is paid at each whole year from the first until the end; one of a material from its placing on. At each visit
    /// the area damaged since the last one is patched for the time being: that is paid, and changes nothing in the deck's condition.
    /// </remarks>
    public static ImmutableArray<Payment> Upkeep(
        PriceList prices,
        PriceDraw? draw,
        double endYr,
        double horizonYr,
        double deckAreaM2,
        Func<int, double> damagedAt,
        IReadOnlyList<(string Material, double AtYr)> placed
    )
    {
        ArgumentNullException.ThrowIfNull(prices);
        ArgumentNullException.ThrowIfNull(damagedAt);
        ArgumentNullException.ThrowIfNull(placed);
        draw ??= PriceDraw.AsListed(prices);
        var until = (int)Math.Floor(Math.Min(endYr, horizonYr));
        var payments = ImmutableArray.CreateBuilder<Payment>();
        for (var i = 0; i < prices.Items.Length; i++)
        {
            var price = prices.Items[i];
            switch (price.Basis)
            {
                case PriceBasis.Year:
                    var from = price.Material is null
                        ? 0
                        : placed
                            .Where(p => p.Material == price.Material)
                            .Select(p => p.AtYr)
                            .DefaultIfEmpty(double.PositiveInfinity)
                            .Min();
                    for (var year = 1; year <= until; year++)
                    {
                        if (year > from)
                        {
                            payments.Add(Paid(prices, draw, i, year, 1));
                        }
                    }

                    break;
                case PriceBasis.InterimRepairedArea
                    when prices.InterimRepairEveryYr is { } every && every >= 1:
                    var before = damagedAt(0);
                    for (var visit = every; visit <= until; visit += every)
                    {
                        var now = damagedAt((int)Math.Floor(visit));
                        if (now > before)
                        {
                            payments.Add(Paid(prices, draw, i, visit, (now - before) * deckAreaM2));
                        }

                        before = now;
                    }

                    break;
            }
        }

        return payments.ToImmutable();
    }

    /// <summary>Payments from the end of the deck on, and the value that is left at the horizon.</summary>
    /// <param name="prices">Price list.</param>
    /// <param name="deckAreaM2">Area of the deck [m²].</param>
    /// <param name="endYr">When the end criterion is met [yr]; infinite where the horizon comes first.</param>
    /// <param name="horizonYr">Horizon [yr].</param>
    /// <param name="draw">A draw of the prices; absent: as listed.</param>
    /// <remarks>
    /// The actions after the limit follow each other, then the renewal; the last of them is repeated until the horizon. What is left of
    /// the last one at the horizon is counted in a straight line over its life.
    /// </remarks>
    public static ImmutableArray<Payment> Renewal(
        PriceList prices,
        double deckAreaM2,
        double endYr,
        double horizonYr,
        PriceDraw? draw = null
    )
    {
        ArgumentNullException.ThrowIfNull(prices);
        if (!prices.PricesTheEnd || !(endYr < horizonYr))
        {
            return [];
        }

        draw ??= PriceDraw.AsListed(prices);
        var renewal = Enumerable
            .Range(0, prices.Items.Length)
            .Where(i => prices.Items[i].Basis == PriceBasis.RenewedArea)
            .ToArray();
        var renews = renewal.Length > 0;
        var payments = ImmutableArray.CreateBuilder<Payment>();
        var at = endYr;
        for (var step = 0; at < horizonYr; step++)
        {
            var from = payments.Count;
            double life;
            if (step < prices.AfterLimit.Length || !renews)
            {
                var action = Math.Min(step, prices.AfterLimit.Length - 1);
                life = Math.Max(LeastLifeYr, draw.ActionLivesYr[action]);
                payments.Add(
                    new(
                        at,
                        prices.AfterLimit[action].AmountPerM2
                            * draw.ActionFactors[action]
                            * draw.Level
                            * deckAreaM2
                            * Grown(prices.GrowthPerYr, at),
                        prices.AfterLimit[action].Action
                    )
                );
            }
            else
            {
                life = prices.RenewalLifeYr ?? double.PositiveInfinity;
                payments.AddRange(
                    renewal.Select(i =>
                        Paid(prices, draw, i, at, deckAreaM2) with
                        {
                            Item = "renewal",
                        }
                    )
                );
            }

            var next = at + life;
            if (next > horizonYr && double.IsFinite(next))
            {
                var share = (next - horizonYr) / life;
                var spent = payments
                    .Skip(from)
                    .Where(p => p.PaidBy == Payer.Agency)
                    .Sum(p => p.Amount / Grown(prices.GrowthPerYr, at));
                payments.Add(
                    new(
                        horizonYr,
                        -spent * share * Grown(prices.GrowthPerYr, horizonYr),
                        "value left at the horizon"
                    )
                );
            }

            at = next;
        }

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

    // Each unsound square metre once: found at the survey (grown by what re-sounding adds), or missed then, or damaged since.
    private static double Repaired(WorkQuantities work, PriceDraw draw) =>
        draw.QuantityGrowth is { } growth
            ? Math.Clamp(
                work.RepairedAreaM2 - work.MissedAtSurveyM2 + ((growth - 1) * work.FoundAtSurveyM2),
                0,
                work.DeckAreaM2
            )
            : work.RepairedAreaM2;

    private static Payment Paid(
        PriceList prices,
        PriceDraw draw,
        int item,
        double atYr,
        double quantity
    )
    {
        var price = prices.Items[item];
        return new(
            atYr,
            quantity
                * price.Amount
                * draw.ItemFactors[item]
                * (price.PaidBy == Payer.Agency ? draw.Level : 1)
                * Grown(price.GrowthPerYr ?? prices.GrowthPerYr, atYr),
            price.Item,
            price.PaidBy
        );
    }

    private static double Grown(double perYr, double years) =>
        perYr == 0 ? 1 : Math.Pow(1 + perYr, years);
}
