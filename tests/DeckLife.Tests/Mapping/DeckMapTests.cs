using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Mapping;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Surveys;
using DeckLife.Tests.Population;
using DeckLife.Tests.Projection;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Tests.Mapping;

public sealed class DeckMapTests(ITestOutputHelper log)
{
    private static readonly Deck Stated = DeckTruth.Stated with
    {
        Analysis = new()
        {
            Seed = 11,
            Draws = 200,
            Points = 64,
        },
    };

    private static readonly DeckTruth SaltRich = new()
    {
        MeanLnDiffusion = Math.Log(18),
        LnSurfaceShift = (_, x, _) => x < 12 ? 0.5 : -0.3,
    };

    // A gutter with twice the salt; half of the cores in it.
    private static readonly DeckTruth SaltyGutter = new()
    {
        MeanLnDiffusion = Math.Log(18),
        LnSurfaceShift = (_, _, y) => y < 1.5 ? Math.Log(2) : 0,
        CorePlace = (u, v) =>
            (
                SimulatedDeck.LengthM * u,
                v < 0.5 ? 3 * v : 1.5 + (SimulatedDeck.WidthM - 1.5) * (2 * v - 1)
            ),
    };

    // A map scored by the truth at every second node, at which no survey looked: mean logarithm of the probability of what is there.
    private static double HeldOutScore(
        SimulatedDeck simulated,
        Deck deck,
        DeckMap map,
        IEnumerable<HalfCellReading> held
    ) =>
        held.Where(h => !deck.Soundings.Any(s => s.Contains(h.X, h.Y)))
            .Average(h =>
            {
                var cell = map.At(h.X, h.Y);
                var active = (cell.Active - cell.Unsound) / (1 - cell.Unsound - cell.Patched);
                return Math.Log(
                    Math.Clamp(simulated.IsActiveAt(h.X, h.Y) ? active : 1 - active, 1e-6, 1)
                );
            });

    /// <summary>Every deck of the row is reported and counts: none is left out for its outcome.</summary>
    private void Report(string what, double[] gains)
    {
        var mean = gains.Average();
        var error = Math.Sqrt(
            gains.Sum(g => (g - mean) * (g - mean)) / (gains.Length - 1) / gains.Length
        );
        log.WriteLine(
            FormattableString.Invariant(
                $"{what}: gain of log score a place by deck {string.Join(", ", gains.Select(g => g.ToString("F4", System.Globalization.CultureInfo.InvariantCulture)))}; mean {mean:F4}, standard error {error:F4}, better on {gains.Count(g => g > 0)} of {gains.Length}"
            )
        );
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Draw_SaltyGutterWithCoresInIt_HeldOutTruthIsPredictedBetterThanWithoutTheirPlaces(
        bool withPotentials
    )
    {
        const int Decks = 10;
        var gains = new double[Decks];
        for (var index = 0; index < Decks; index++)
        {
            var simulated = new SimulatedDeck(SaltyGutter, 99, (ulong)index);
            var surveyed = simulated.Survey(Stated);
            var held = surveyed.HalfCells.Where((_, i) => i % 2 == 1).ToArray();
            var deck = surveyed with
            {
                HalfCells = withPotentials
                    ? [.. surveyed.HalfCells.Where((_, i) => i % 2 == 0)]
                    : [],
                Soundings = [],
                Zones = [new("gutter", 0, 48, 0, 1.5), new("the rest", 0, 48, 1.5, 12)],
            };
            ImmutableArray<ProfileFit> cores = [.. deck.Cores.Select(c => ProfileFitter.Fit(c))];
            var fit = DeckFitter.Fit(
                cores,
                DeckAnalysis.OptionsFor(deck) with
                {
                    Sweeps = 1000,
                    Draws = 1000,
                }
            );
            var draw = Mapper(deck, fit);
            var with = draw(cores);
            var without = draw([]);
            Assert.Equal(deck.Cores.Length, with.Cores);
            Assert.InRange(with.CoreWeight, 0.1, 0.95);
            Assert.Equal(0, without.Cores);
            Assert.Equal(with.DeckActive, with.Cells.Average(c => c.Active), 0.06);
            gains[index] =
                HeldOutScore(simulated, deck, with, held)
                - HeldOutScore(simulated, deck, without, held);
        }

        Report(withPotentials ? "half of the potentials seen" : "no potentials", gains);
        Assert.True(gains.Average() > 0, "the cores' places tell nothing");
    }

    // The map of a deck as a projection draws it, learned once for any cores.
    private static Func<ImmutableArray<ProfileFit>, DeckMap> Mapper(Deck deck, DeckFit fit)
    {
        var cover = DeckProjector.CheckedCover(deck);
        var clock = new ExposureClock(deck.ExposureAge.Years);
        var evidence = SurveyEvidence.Of(deck);
        var effort = LearningEffort.OfAnExploration;
        var sampler = new KnowledgeSampler(
            deck,
            fit,
            cover,
            deck.Analysis.Seed,
            effort.FirstDraws,
            evidence.FiniteAreaSd
        );
        var learned = new SurveyLearner(deck, sampler, clock, effort).Learn(evidence, 200, default);
        return cores =>
            DeckMapper.Draw(
                deck,
                sampler,
                clock,
                cover,
                evidence,
                learned,
                cores,
                fit.LabErrorSd.Value
            )!;
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Draw_SaltRichZone_HeldOutTruthIsPredictedBetterThanByTheDeckShare(bool withSounding)
    {
        const int Decks = 8;
        var (gains, ratios) = (new double[Decks], new double[Decks]);
        for (var index = 0; index < Decks; index++)
        {
            var simulated = new SimulatedDeck(SaltRich, 99, (ulong)index);
            var surveyed = simulated.Survey(Stated);
            // Every second node is held out; what is scored are the truths there, seen by no survey.
            var held = surveyed.HalfCells.Where((_, i) => i % 2 == 1).ToArray();
            var deck = surveyed with
            {
                HalfCells = [.. surveyed.HalfCells.Where((_, i) => i % 2 == 0)],
                Soundings = withSounding ? surveyed.Soundings : [],
            };

            var map = Mapper(deck, ExampleDecks.Fitted(0.15))([]);

            // The same draws without a place: the share of the deck that corrodes among what sounding left.
            var found = map.Cells.Average(c => c.Unsound);
            var one = (map.DeckActive - found) / (1 - found);
            var byShare = held.Where(h => !deck.Soundings.Any(s => s.Contains(h.X, h.Y)))
                .Average(h => Math.Log(simulated.IsActiveAt(h.X, h.Y) ? one : 1 - one));
            gains[index] = HeldOutScore(simulated, deck, map, held) - byShare;
            ratios[index] =
                map.Cells.Where(c => c.X < 12).Average(c => c.Active)
                / map.Cells.Where(c => c.X > 12).Average(c => c.Active);
            Assert.Equal(map.DeckActive, map.Cells.Average(c => c.Active), 0.06);
        }

        Report(withSounding ? "sounded" : "not sounded", gains);
        Assert.True(gains.Average() > 0.02, "the map predicts held-out places no better");
        Assert.True(gains.Count(g => g > 0) >= Decks - 2);
        Assert.True(ratios.Average() > 1.2);
    }

    [Fact]
    public void Draw_SurveyThatSaysNothing_IsFlatAtTheDeckShare()
    {
        var simulated = new SimulatedDeck(SaltRich, 99, 1);
        var deck = simulated.Survey(Stated) with
        {
            Soundings = [],
            Covers = [],
            StatedCoverMm = ExampleDecks.Plain.StatedCoverMm,
            Surveys = new()
            {
                PassiveMeanMv = -280,
                ActiveMeanMv = -280,
                PassiveSdMv = 70,
                ActiveSdMv = 70,
            },
        };

        var map = ExampleDecks.Project(deck, ExampleDecks.Fitted(0.15)).Map!;

        Assert.All(map.Cells, c => Assert.Equal(map.DeckActive, c.Active, 5e-3));
        Assert.All(map.Cells, c => Assert.Equal(map.DeckDamaged, c.Damaged, 5e-3));
        Assert.Equal(map.Cells.Min(c => c.Active), map.Cells.Max(c => c.Active), 1e-4);
        // Nothing weighs the lengths: the whole row stays.
        Assert.True(map.LengthP95M > 5 * map.LengthP05M);
    }

    [Fact]
    public void Draw_AnyNumberOfThreads_SameNumbers()
    {
        var deck = new SimulatedDeck(SaltRich, 99, 2).Survey(Stated);
        DeckMap With(int threads) =>
            ExampleDecks
                .Project(
                    deck with
                    {
                        Analysis = deck.Analysis with { Draws = 60, Threads = threads },
                    },
                    ExampleDecks.Fitted(0.15)
                )
                .Map!;

        var one = With(1);

        foreach (var threads in new[] { 2, 8 })
        {
            var other = With(threads);
            Assert.Equal(one.Cells.AsEnumerable(), other.Cells);
            Assert.Equal(one.Zones.AsEnumerable(), other.Zones);
            Assert.Equal(one.LengthM, other.LengthM);
        }
    }

    [Fact]
    public void Draw_SoundedDeck_FoundPlacesAreDamagedAndZonesMakeUpTheDeck()
    {
        var deck = new SimulatedDeck(SaltRich, 99, 3).Survey(Stated) with
        {
            Zones = [new("salt-rich end", 0, 12, 0, 12), new("the rest", 12, 48, 0, 12)],
        };

        var projection = ExampleDecks.Project(deck, ExampleDecks.Fitted(0.15));

        var map = projection.Map!;
        Assert.All(
            map.Cells,
            c =>
            {
                Assert.InRange(c.Damaged, c.Unsound, 1);
                Assert.True(c.Active >= c.Damaged - 1e-12);
                Assert.True(c.DamagedLater[0] >= c.Damaged + c.Patched - 1e-9);
                Assert.True(c.DamagedLater[1] >= c.DamagedLater[0]);
                Assert.InRange(c.DamagedLater[2], c.DamagedLater[1], 1);
            }
        );
        Assert.Equal(["salt-rich end", "the rest"], map.Zones.Select(z => z.Name));
        Assert.Equal(
            map.Cells.Average(c => c.Damaged),
            map.Zones.Sum(z => z.AreaShare * z.Damaged),
            1e-9
        );
        Assert.True(map.Zones[0].DamagedLater[1] > map.Zones[1].DamagedLater[1]);
        // The deck's own curve is the zones' area-weighted mix, but for what the field leaves of the spread between draws.
        var curve = projection.Strategies[0].Curve.First(p => p.TimeYr == 20).DamagedOrPatched;
        Assert.Equal(curve.P50, map.Zones.Sum(z => z.AreaShare * z.DamagedLater[1]), 0.05);
    }

    [Fact]
    public void Draw_NodesOnSoundedAreas_CountOnlyAsSounded()
    {
        var deck = new SimulatedDeck(SaltRich, 99, 3).Survey(Stated);
        Assert.Contains(deck.HalfCells, h => deck.Soundings.Any(s => s.Contains(h.X, h.Y)));

        var map = ExampleDecks.Project(deck, ExampleDecks.Fitted(0.15)).Map!;
        var without = ExampleDecks
            .Project(
                deck with
                {
                    HalfCells =
                    [
                        .. deck.HalfCells.Where(h =>
                            !deck.Soundings.Any(s => s.Contains(h.X, h.Y))
                        ),
                    ],
                },
                ExampleDecks.Fitted(0.15)
            )
            .Map!;

        Assert.Equal(map.Cells.Select(c => c.Nodes), without.Cells.Select(c => c.Nodes));
    }

    [Fact]
    public void Draw_NothingWithAPosition_IsAbsent()
    {
        var deck = ExampleDecks.Plain with { Soundings = SurveyLearningTests.Sounding(0.1, 0.02) };

        Assert.Null(ExampleDecks.Project(deck).Map);
        Assert.Null(
            ExampleDecks
                .Project(
                    new SimulatedDeck(SaltRich, 99, 3).Survey(Stated) with
                    {
                        Surveys = new() { Learn = false },
                    }
                )
                .Map
        );
    }
}
