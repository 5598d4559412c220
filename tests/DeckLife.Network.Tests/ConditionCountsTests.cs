using System.Collections.Immutable;
using DeckLife.Network.Condition;
using DeckLife.Network.Decks;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Network.Tests;

public class ConditionCountsTests
{
    private const int Draws = 20;

    private static readonly NetworkDefinition Network = new()
    {
        Name = "n",
        FirstYear = 2032,
        LastYear = 2036,
        Budgets = [1, 1],
        StartYears = [2032],
        Draws = Draws,
        Members = [],
    };

    [Fact]
    public void Add_PartsInAnyOrder_GiveThePercentilesOfTheWhole()
    {
        var decks = Enumerable.Range(0, 60).Select(Deck).ToArray();
        var whole = Counts(decks);
        foreach (var parts in new[] { 2, 3, 7 })
        {
            var merged = new ConditionCounts(Network);
            foreach (
                var part in decks
                    .Select((d, i) => (d, i))
                    .GroupBy(t => t.i % parts, t => t.d)
                    .Reverse()
            )
            {
                merged.Add(Counts([.. part.Reverse()]));
            }

            Assert.Equal(whole.Decks, merged.Decks);
            Assert.Equal(whole.AreaDm2, merged.AreaDm2);
            foreach (var (one, other) in whole.ToYears().Zip(merged.ToYears()))
            {
                Assert.Equal(one.Damaged, other.Damaged);
                Assert.True(one.AreaByClass.SequenceEqual(other.AreaByClass));
                Assert.True(one.DecksByClass.SequenceEqual(other.DecksByClass));
            }
        }
    }

    [Fact]
    public void ToYears_IndependentErrors_EqualASortedSumOverTheDraws()
    {
        var decks = Enumerable.Range(0, 13).Select(Deck).ToArray();

        var years = Counts(decks).ToYears();

        for (var y = 0; y < 5; y++)
        {
            var sums = Enumerable
                .Range(0, Draws)
                .Select(k =>
                    decks.Sum(d => d.AreaDm2!.Value * (d.Options[1].DamagedPpm[k * 5 + y] / 1e6))
                    / decks.Sum(d => d.AreaDm2!.Value)
                )
                .Order()
                .ToArray();
            // Linear between order statistics: the median of 20 lies midway between the 10th and 11th.
            Assert.Equal((sums[9] + sums[10]) / 2, years[y].Damaged.Independent.P50, 1e-9);
            Assert.Equal(
                sums[0] + 0.95 * (sums[1] - sums[0]),
                years[y].Damaged.Independent.P05,
                1e-9
            );
            // How many decks of a draw lie in the last class, 25 % damaged and more.
            var worst = Enumerable
                .Range(0, Draws)
                .Select(k =>
                    (double)decks.Count(d => d.Options[1].DamagedPpm[k * 5 + y] >= 250_000)
                )
                .Order()
                .ToArray();
            Assert.Equal(
                (worst[9] + worst[10]) / 2,
                years[y].DecksByClass[^1].Independent.P50,
                1e-9
            );
        }
    }

    [Fact]
    public void ToYears_DecksErringTogether_HaveTheWiderBand()
    {
        var years = Counts([.. Enumerable.Range(0, 60).Select(Deck)]).ToYears();

        Assert.All(
            years,
            y =>
            {
                Assert.True(
                    y.Damaged.Together.P95 - y.Damaged.Together.P05
                        > 2 * (y.Damaged.Independent.P95 - y.Damaged.Independent.P05)
                );
            }
        );
    }

    [Fact]
    public void ToYears_OneDeck_BothWaysOfErringAgree()
    {
        var year = Counts([Deck(3)]).ToYears()[4];

        Assert.Equal(year.Damaged.Independent, year.Damaged.Together);
    }

    private static ConditionCounts Counts(IReadOnlyList<DeckRecord> decks)
    {
        var counts = new ConditionCounts(Network);
        foreach (var deck in decks)
        {
            counts.Add(deck, 1);
        }

        return counts;
    }

    private static DeckRecord Deck(int index)
    {
        var random = new RandomStream(5, "decks of counts", (ulong)index);
        ImmutableArray<int> Path(double factor) =>
            [
                .. Enumerable
                    .Range(0, Draws)
                    .SelectMany(_ =>
                    {
                        var start = 20_000 + random.NextInteger(500_000);
                        return Enumerable
                            .Range(0, 5)
                            .Select(y => (int)(factor * start * (1 + 0.1 * y)));
                    }),
            ];
        var nothing = Path(1);
        return new()
        {
            Index = index,
            Folder = "d",
            Name = "d",
            AreaDm2 = 10_000 + random.NextInteger(100_000),
            Options =
            [
                new(null, null, [0, 0], nothing),
                // Treated in the same order of draws as untreated.
                new("s", 2032, [1, 0], [.. nothing.Select(n => n / 2)]),
            ],
        };
    }
}
