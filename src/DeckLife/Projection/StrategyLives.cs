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
            Deck[k] = Crossing(
                draws[k].Grid,
                deck.DamageLimitCountsPatches ? draws[k].DamagedOrPatched : draws[k].Damaged,
                deck.DamageLimit
            );
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

    /// <summary>First time at which a share reaches a limit; a state that an intervention ends at that very moment does not count.</summary>
    private static double Crossing(TimeGrid grid, double[] share, double limit)
    {
        var times = grid.TimesYr;
        for (var j = 0; j < times.Length; j++)
        {
            if (share[j] < limit)
            {
                continue;
            }

            var fromStart = j == 0 || times[j] == times[j - 1];
            if (fromStart)
            {
                if (j + 1 < times.Length && times[j + 1] == times[j])
                {
                    continue;
                }

                return times[j];
            }

            var before = share[j - 1];
            return times[j - 1]
                + (times[j] - times[j - 1]) * (limit - before) / (share[j] - before);
        }

        return double.PositiveInfinity;
    }
}
