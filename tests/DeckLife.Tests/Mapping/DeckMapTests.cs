using System.Collections.Immutable;
using DeckLife.Mapping;
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

    [Theory]
    [InlineData(1, false)]
    [InlineData(3, true)]
    [InlineData(4, true)]
    public void Draw_SaltRichZone_HeldOutTruthIsPredictedBetterThanByTheDeckShare(
        ulong index,
        bool withSounding
    )
    {
        var simulated = new SimulatedDeck(SaltRich, 99, index);
        var surveyed = simulated.Survey(Stated);
        // Every second node is held out; what is scored are the truths there, seen by no survey.
        var held = surveyed.HalfCells.Where((_, i) => i % 2 == 1).ToArray();
        var deck = surveyed with
        {
            HalfCells = [.. surveyed.HalfCells.Where((_, i) => i % 2 == 0)],
            Soundings = withSounding ? surveyed.Soundings : [],
        };

        var map = ExampleDecks.Project(deck, ExampleDecks.Fitted(0.15)).Map!;

        double Score(
            Func<HalfCellReading, double> probability,
            Func<HalfCellReading, bool> truth
        ) =>
            held.Where(h => !deck.Soundings.Any(s => s.Contains(h.X, h.Y)))
                .Average(h =>
                    Math.Log(Math.Clamp(truth(h) ? probability(h) : 1 - probability(h), 1e-6, 1))
                );
        var share = held.Average(h => simulated.IsActiveAt(h.X, h.Y) ? 1.0 : 0);
        // The same draws without a place: the share of the deck that corrodes among what sounding left.
        var found = map.Cells.Average(c => c.Unsound);
        var one = (map.DeckActive - found) / (1 - found);
        var byMap = Score(
            h =>
            {
                var cell = map.At(h.X, h.Y);
                return (cell.Active - cell.Unsound) / (1 - cell.Unsound - cell.Patched);
            },
            h => simulated.IsActiveAt(h.X, h.Y)
        );
        var byShare = Score(_ => one, h => simulated.IsActiveAt(h.X, h.Y));
        var (rich, poor) = (
            map.Cells.Where(c => c.X < 12).Average(c => c.Active),
            map.Cells.Where(c => c.X > 12).Average(c => c.Active)
        );
        log.WriteLine(
            FormattableString.Invariant(
                $"truth {simulated.Initiated(0):F3} active, {simulated.Damaged(0):F3} damaged; held-out share {share:F3}; map {rich:F3} and {poor:F3}; deck {map.DeckActive:F3}; cells {map.Cells.Average(c => c.Active):F3}; score {byMap:F4} against {byShare:F4}; length {map.LengthM:F1} ({map.LengthP05M:F1} to {map.LengthP95M:F1}), local {map.LocalShare:F2}, cover {map.CoverWeight:F2}"
            )
        );
        Assert.True(byMap > byShare, "the map predicts held-out places no better than one number");
        Assert.True(rich > 1.2 * poor);
        Assert.Equal(map.DeckActive, map.Cells.Average(c => c.Active), 0.06);
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
