using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Projection;

namespace DeckLife.Tests.Population;

/// <summary>The whole chain on simulated decks: fit of the cores, learning from the surveys, projection; held against the simulated future.</summary>
internal static class ChainCalibration
{
    /// <summary>Years after the survey at which the damaged share is held against the band.</summary>
    public static ImmutableArray<int> Years { get; } = [0, 10, 20, 40];

    /// <summary>One deck's outcome.</summary>
    /// <param name="Inside">Whether the truth lay in the 90 % band, by <see cref="Years"/>.</param>
    /// <param name="Below">Whether it lay below the band.</param>
    /// <param name="LimitInside">Whether the year of the limit lay in its band; a year beyond the horizon counts as the horizon.</param>
    /// <param name="Width">Width of the band of the damaged share 20 yr on.</param>
    /// <param name="Miss">Median less truth 20 yr on.</param>
    /// <param name="IsLearned">Whether the surveys were learned from.</param>
    /// <param name="IsFlagged">Whether a survey was said to contradict the model.</param>
    public sealed record Outcome(
        bool[] Inside,
        bool[] Below,
        bool LimitInside,
        double Width,
        double Miss,
        bool IsLearned,
        bool IsFlagged
    );

    /// <summary>Runs one deck; nothing where the cores can't be fitted as a deck.</summary>
    public static Outcome? Run(DeckTruth truth, Deck stated, ulong seed, ulong index)
    {
        var simulated = new SimulatedDeck(truth, seed, index);
        var deck = simulated.Survey(stated);
        DeckFit fit;
        try
        {
            fit = DeckFitter.Fit(
                [.. deck.Cores.Select(c => ProfileFitter.Fit(c))],
                DeckAnalysis.OptionsFor(deck) with
                {
                    Threads = 1,
                    Sweeps = 2000,
                    Draws = 2000,
                }
            );
        }
        catch (DeckFitRefusedException)
        {
            return null;
        }

        var projection = DeckProjector.Project(deck, fit, []);
        var strategy = projection.Strategies[0];
        var truths = Years.Select(y => simulated.Damaged(y)).ToArray();
        var bands = Years
            .Select(y => strategy.Curve.MinBy(p => Math.Abs(p.TimeYr - y))!.DamagedOrPatched)
            .ToArray();
        var limit = simulated.YearOf(deck.DamageLimit, deck.Horizon.Years);
        var life = strategy.ServiceLife;
        // A grid of 576 cells can't be between two counts.
        const double Grain = 0.5 / 576;
        return new(
            [.. bands.Zip(truths, (b, t) => b.P05 - Grain <= t && t <= b.P95 + Grain)],
            [.. bands.Zip(truths, (b, t) => t < b.P05 - Grain)],
            (life.P05Yr ?? deck.Horizon.Years) <= limit
                && limit <= (life.P95Yr ?? deck.Horizon.Years),
            bands[2].P95 - bands[2].P05,
            bands[2].P50 - truths[2],
            projection.Hindcast?.IsLearned ?? false,
            projection.Flags.Any(f => f.Code == "DL4015")
        );
    }

    /// <summary>Runs decks whose truths come from what is stated.</summary>
    public static ImmutableArray<Outcome> FromPriors(Deck stated, int decks, ulong seed) =>
        [
            .. FixedOrderParallel
                .Map(
                    decks,
                    i =>
                        Run(
                            DeckTruth.FromPrior(new RandomStream(seed, "truths", (ulong)i)),
                            stated,
                            seed,
                            (ulong)i
                        )
                )
                .OfType<Outcome>(),
        ];
}
