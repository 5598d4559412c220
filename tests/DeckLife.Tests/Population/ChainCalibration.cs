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
    /// <param name="IsFlagged">Whether a survey was said to contradict the model, or learning not to be trusted.</param>
    public sealed record Outcome(
        bool[] Inside,
        bool[] Below,
        bool LimitInside,
        double Width,
        double Miss,
        bool IsLearned,
        bool IsFlagged
    );

    /// <summary>Ways in which a deck departs from what the model and its engineer take it for.</summary>
    public static ImmutableArray<(string Name, DeckTruth Truth)> Adverse { get; } =
    [
        ("none: the model's form holds", new()),
        (
            "cover of two mats: 50 and 74 mm, taken as normal",
            new() { CoverMm = (z, x, _) => (x < 24 ? 50 : 74) + 4 * z }
        ),
        ("Cs and D correlated, +0.8", new() { Correlation = 0.8 }),
        (
            "D ages on (exponent 0.35 from now), taken as constant",
            new()
            {
                YearsAtEffective = years =>
                    SimulatedDeck.ExposureYr
                    * Math.Pow(years / SimulatedDeck.ExposureYr, 1 / (1 - 0.35)),
            }
        ),
        (
            "gutter strip of 1.5 m with 1.8 times the salt, no core on it",
            new()
            {
                LnSurfaceShift = (_, _, y) => y < 1.5 ? Math.Log(1.8) : 0,
                CorePlace = (u, v) => (SimulatedDeck.LengthM * u, 2 + 10 * v),
            }
        ),
        (
            "two wheel paths with 12 mm less cover",
            new() { CoverMm = (z, _, y) => 60 + 8 * z - (y % 6 is > 2 and < 4 ? 12 : 0) }
        ),
        ("potentials 100 mV too negative (wet deck)", new() { PotentialShiftMv = -100 }),
        ("potentials 100 mV too positive (dry, dense)", new() { PotentialShiftMv = 100 }),
        (
            "threshold 2.2 times the stated, 2 s.d. of what is not known out",
            new() { MeanLnThreshold = new DeckTruth().MeanLnThreshold + Math.Log(2.2) }
        ),
        (
            "threshold 0.45 times the stated",
            new() { MeanLnThreshold = new DeckTruth().MeanLnThreshold - Math.Log(2.2) }
        ),
        (
            "salt in patches: half the deck with 0.5, half with 1.7 times the content",
            new() { LnSurfaceShift = (z, _, _) => z > 0 ? Math.Log(1.7) : Math.Log(0.5) }
        ),
        ("sounding finds half, stated 0.9", new() { Detection = 0.5 }),
        ("outlines 1.3 times too large or small, stated 10 %", new() { OutlineError = 0.3 }),
        (
            "laboratory error of 8 % of the content, taken as constant",
            new() { LabErrorSd = 0.03, LabErrorShare = 0.08 }
        ),
        (
            "cracks: a tenth of the deck with 6 times D, no core on them",
            new() { LnDiffusionShift = u => u < 0.1 ? Math.Log(6) : 0 }
        ),
    ];

    /// <summary>Runs one deck; nothing where the cores can't be fitted as a deck.</summary>
    /// <param name="truth">What the deck is like.</param>
    /// <param name="stated">What its engineer states of it.</param>
    /// <param name="seed">Seed of the deck.</param>
    /// <param name="index">Index of the deck.</param>
    /// <param name="keepsRecord">Whether the contradictions of the surveys are looked at, which costs as much again.</param>
    public static Outcome? Run(
        DeckTruth truth,
        Deck stated,
        ulong seed,
        ulong index,
        bool keepsRecord = false
    )
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

        var projection = keepsRecord
            ? DeckProjector.Project(deck, fit, [])
            : DeckProjector.ProjectWithoutRecord(deck, fit, CancellationToken.None);
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
            projection.Flags.Any(f => f.Code is "DL4015" or "DL4016" or "DL4017")
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
