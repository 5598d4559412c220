using System.Collections.Immutable;

namespace DeckLife.Network.Decks;

/// <summary>One thing that a program may do with a deck: a strategy begun in a year, or nothing.</summary>
/// <param name="Strategy">The strategy; absent: nothing is done.</param>
/// <param name="StartYear">Calendar year of its first intervention; absent with nothing.</param>
/// <param name="CostByYear">Expected cost in each year of the program, rounded up to whole units of the currency; later ones are not the program's.</param>
/// <param name="DamagedPpm">
/// Share of the deck's area damaged [millionths]: draw by draw, for each draw one value a year from the program's first to the
/// network's last; whole numbers, so that sums do not depend on their order.
/// </param>
public sealed record DeckOption(
    string? Strategy,
    int? StartYear,
    ImmutableArray<long> CostByYear,
    ImmutableArray<int> DamagedPpm
)
{
    /// <summary>Whether nothing is done.</summary>
    public bool IsNothing => StartYear is null;

    /// <summary>Mean over the draws of the share damaged in each year [millionths], rounded.</summary>
    /// <param name="years">Number of years.</param>
    public int[] MeanPpm(int years)
    {
        var draws = DamagedPpm.Length / years;
        var mean = new int[years];
        for (var y = 0; y < years; y++)
        {
            long sum = 0;
            for (var k = 0; k < draws; k++)
            {
                sum += DamagedPpm[k * years + y];
            }

            mean[y] = (int)((sum + draws / 2) / draws);
        }

        return mean;
    }

    /// <inheritdoc/>
    public bool Equals(DeckOption? other) =>
        other is not null
        && Strategy == other.Strategy
        && StartYear == other.StartYear
        && CostByYear.AsSpan().SequenceEqual(other.CostByYear.AsSpan())
        && DamagedPpm.AsSpan().SequenceEqual(other.DamagedPpm.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Strategy, StartYear, DamagedPpm.Length);
}
