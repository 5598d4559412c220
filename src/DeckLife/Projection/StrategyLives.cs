namespace DeckLife.Projection;

/// <summary>When a strategy ends, draw by draw.</summary>
internal sealed class StrategyLives
{
    /// <summary>Finds the ends.</summary>
    public StrategyLives(Deck deck, StrategyDraw[] draws)
    {
        Deck = new double[draws.Length];
        Overlay = new double[draws.Length];
        First = new double[draws.Length];
        for (var k = 0; k < draws.Length; k++)
        {
            Deck[k] = Crossing(draws[k].Grid, Limited(deck, draws[k]), deck.DamageLimit);
            Overlay[k] =
                draws[k].OverlayEndYr <= deck.Horizon.Years
                    ? draws[k].OverlayEndYr
                    : double.PositiveInfinity;
            First[k] = Math.Min(Deck[k], Overlay[k]);
        }
    }

    /// <summary>When the deck beneath reaches its limit [yr]; infinite where the horizon comes first.</summary>
    public double[] Deck { get; }

    /// <summary>When an overlay ends by itself [yr]; infinite where it does not within the horizon.</summary>
    public double[] Overlay { get; }

    /// <summary>Whichever comes first [yr].</summary>
    public double[] First { get; }

    /// <summary>How far a strategy is from its end at a time, as a share of the area: at or below 0 exactly where its life has ended by then.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="draw">The strategy's course.</param>
    /// <param name="timeYr">The time, within the horizon [yr].</param>
    public static double Margin(Deck deck, StrategyDraw draw, double timeYr)
    {
        var times = draw.Grid.TimesYr;
        var share = Limited(deck, draw);
        var largest = At(draw.Grid, share, timeYr);
        for (var j = 0; j < times.Length && times[j] < timeYr; j++)
        {
            largest = IsPassedOver(times, j) ? largest : Math.Max(largest, share[j]);
        }

        // An overlay that ends by itself has no share; its time left, as a part of the time asked, is on the limit's scale.
        var left = draw.OverlayEndYr - timeYr;
        var margin = deck.DamageLimit - largest;
        return left > 0 || draw.OverlayEndYr > deck.Horizon.Years
            ? margin
            : Math.Min(margin, deck.DamageLimit * left / timeYr);
    }

    /// <summary>A share at a time, linear between the grid's; at an intervention's own time the state before it.</summary>
    /// <param name="grid">The grid.</param>
    /// <param name="shares">Shares at its times.</param>
    /// <param name="timeYr">The time, within the grid [yr].</param>
    public static double At(TimeGrid grid, double[] shares, double timeYr)
    {
        var times = grid.TimesYr;
        var j = Array.FindIndex(times, t => t >= timeYr);
        return times[j] == timeYr
            ? shares[j]
            : shares[j - 1]
                + (
                    (shares[j] - shares[j - 1])
                    * (timeYr - times[j - 1])
                    / (times[j] - times[j - 1])
                );
    }

    private static double[] Limited(Deck deck, StrategyDraw draw) =>
        deck.DamageLimitCountsPatches ? draw.DamagedOrPatched : draw.Damaged;

    private static bool IsFirst(double[] times, int j) => j == 0 || times[j] == times[j - 1];

    // A state that an intervention ends at the very moment it began.
    private static bool IsPassedOver(double[] times, int j) =>
        IsFirst(times, j) && j + 1 < times.Length && times[j + 1] == times[j];

    /// <summary>First time at which a share reaches a limit; a state that an intervention ends at that very moment does not count.</summary>
    private static double Crossing(TimeGrid grid, double[] share, double limit)
    {
        var times = grid.TimesYr;
        for (var j = 0; j < times.Length; j++)
        {
            if (share[j] < limit || IsPassedOver(times, j))
            {
                continue;
            }

            if (IsFirst(times, j))
            {
                return times[j];
            }

            var before = share[j - 1];
            return times[j - 1]
                + (times[j] - times[j - 1]) * (limit - before) / (share[j] - before);
        }

        return double.PositiveInfinity;
    }
}
