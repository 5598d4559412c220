using System.Collections.Immutable;
using DeckLife.Network.Decks;
using DeckLife.Projection;

namespace DeckLife.Network.Condition;

/// <summary>Adds decks up to a network: whole numbers a year, class and draw, so that parts in any order give the same sums.</summary>
/// <remarks>
/// Area is counted in 0.01 m² and shares in millionths: 10 000 decks of 10 000 m² fill a hundredth of a 64-bit number.
/// Checked by: ConditionCountsTests (parts merged equal the whole; an independent sum over the draws).
/// </remarks>
public sealed class ConditionCounts
{
    private readonly int firstYear;
    private readonly int years;
    private readonly int draws;
    private readonly int[] limitsPpm;

    // Way of erring (0 independent, 1 together), then year, draw and, for counts, class.
    private readonly long[] damaged;
    private readonly long[] areas;
    private readonly long[] decks;
    private long totalAreaDm2;

    /// <summary>Begins with no deck.</summary>
    /// <param name="network">The network.</param>
    public ConditionCounts(NetworkDefinition network)
    {
        ArgumentNullException.ThrowIfNull(network);
        firstYear = network.FirstYear;
        years = network.ConditionYears;
        draws = network.Draws;
        limitsPpm = [.. network.ClassLimits.Select(l => (int)Math.Round(1e6 * l))];
        damaged = new long[2 * years * draws];
        areas = new long[damaged.Length * (limitsPpm.Length + 1)];
        decks = new long[areas.Length];
    }

    /// <summary>Decks added.</summary>
    public int Decks { get; private set; }

    /// <summary>Area added [0.01 m²].</summary>
    public long AreaDm2 => totalAreaDm2;

    /// <summary>Adds a deck under one of its options.</summary>
    /// <param name="deck">The deck, projected.</param>
    /// <param name="option">Number of the option.</param>
    public void Add(DeckRecord deck, int option)
    {
        ArgumentNullException.ThrowIfNull(deck);
        var area = deck.AreaDm2!.Value;
        var path = deck.Options[option].DamagedPpm;
        var order = FromBestToWorst(deck.Options[0].DamagedPpm);
        var classes = limitsPpm.Length + 1;
        for (var k = 0; k < draws; k++)
        {
            for (var y = 0; y < years; y++)
            {
                Count(y * draws + k, path[k * years + y]);
                Count((years + y) * draws + k, path[order[k] * years + y]);
            }
        }

        Decks++;
        totalAreaDm2 += area;

        void Count(int place, int ppm)
        {
            damaged[place] += area * ppm;
            var at = place * classes + ClassOf(ppm);
            areas[at] += area;
            decks[at]++;
        }
    }

    /// <summary>Adds what was counted elsewhere of the same network.</summary>
    /// <param name="other">The other counts.</param>
    public void Add(ConditionCounts other)
    {
        ArgumentNullException.ThrowIfNull(other);
        AddTo(damaged, other.damaged);
        AddTo(areas, other.areas);
        AddTo(decks, other.decks);
        Decks += other.Decks;
        totalAreaDm2 += other.totalAreaDm2;
    }

    /// <summary>The condition year by year; empty where no deck was added.</summary>
    public ImmutableArray<ConditionYear> ToYears()
    {
        if (Decks == 0)
        {
            return [];
        }

        var classes = limitsPpm.Length + 1;
        return
        [
            .. Enumerable
                .Range(0, years)
                .Select(y => new ConditionYear(
                    firstYear + y,
                    Bands(place => damaged[place] / 1e6 / totalAreaDm2, y),
                    [
                        .. Enumerable
                            .Range(0, classes)
                            .Select(c =>
                                Bands(place => areas[place * classes + c] / (double)totalAreaDm2, y)
                            ),
                    ],
                    [
                        .. Enumerable
                            .Range(0, classes)
                            .Select(c => Bands(place => decks[place * classes + c], y)),
                    ]
                )),
        ];
    }

    private ConditionBand Bands(Func<int, double> value, int year) =>
        new(
            Percentiles.Band([.. Enumerable.Range(0, draws).Select(k => value(year * draws + k))]),
            Percentiles.Band([
                .. Enumerable.Range(0, draws).Select(k => value((years + year) * draws + k)),
            ])
        );

    // Draws of a deck in the order of the damage that it would have untreated, over all years.
    private int[] FromBestToWorst(ImmutableArray<int> nothing)
    {
        var sums = new long[draws];
        for (var k = 0; k < draws; k++)
        {
            for (var y = 0; y < years; y++)
            {
                sums[k] += nothing[k * years + y];
            }
        }

        return [.. Enumerable.Range(0, draws).OrderBy(k => sums[k])];
    }

    private int ClassOf(int ppm)
    {
        var place = 0;
        while (place < limitsPpm.Length && ppm >= limitsPpm[place])
        {
            place++;
        }

        return place;
    }

    private static void AddTo(long[] sums, long[] more)
    {
        for (var i = 0; i < sums.Length; i++)
        {
            sums[i] += more[i];
        }
    }
}
