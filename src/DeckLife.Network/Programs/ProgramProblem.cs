using System.Collections.Immutable;

namespace DeckLife.Network.Programs;

/// <summary>A program of work to be chosen: for each deck one option, under yearly limits.</summary>
public sealed record ProgramProblem
{
    /// <summary>The decks.</summary>
    public required ImmutableArray<ProgramDeck> Decks { get; init; }

    /// <summary>Money for each year.</summary>
    public required ImmutableArray<long> Budgets { get; init; }

    /// <summary>Most decks closed in one year; absent: no limit.</summary>
    public int? MostClosuresAYear { get; init; }

    /// <summary>Most decks of one corridor closed in one year; absent: no limit.</summary>
    public int? MostClosuresACorridor { get; init; }

    /// <summary>Most damaged area in each year of the condition [0.01 m²]; absent for years without a limit; empty: none has one.</summary>
    public ImmutableArray<long?> DamagedAtMost { get; init; } = [];

    /// <summary>The same problem with other money.</summary>
    /// <param name="factor">Factor on every year's budget, not negative; results are rounded down.</param>
    public ProgramProblem WithBudgets(double factor)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(factor);
        return this with { Budgets = [.. Budgets.Select(b => (long)Math.Floor(b * factor))] };
    }

    /// <summary>Value of a choice.</summary>
    /// <param name="choice">For each deck the number of its option.</param>
    public long ValueOf(ReadOnlySpan<int> choice)
    {
        long value = 0;
        for (var d = 0; d < choice.Length; d++)
        {
            value += Decks[d].Options[choice[d]].Value;
        }

        return value;
    }

    /// <summary>Money spent in each year by a choice.</summary>
    /// <param name="choice">For each deck the number of its option.</param>
    public long[] SpentBy(ReadOnlySpan<int> choice)
    {
        var spent = new long[Budgets.Length];
        for (var d = 0; d < choice.Length; d++)
        {
            var cost = Decks[d].Options[choice[d]].CostByYear;
            for (var y = 0; y < spent.Length; y++)
            {
                spent[y] += cost[y];
            }
        }

        return spent;
    }

    /// <summary>Decks closed in each year by a choice.</summary>
    /// <param name="choice">For each deck the number of its option.</param>
    public int[] ClosuresBy(ReadOnlySpan<int> choice)
    {
        var closures = new int[Budgets.Length];
        for (var d = 0; d < choice.Length; d++)
        {
            var cost = Decks[d].Options[choice[d]].CostByYear;
            for (var y = 0; y < closures.Length; y++)
            {
                closures[y] += cost[y] > 0 ? 1 : 0;
            }
        }

        return closures;
    }

    /// <summary>By how much a choice misses the condition asked for in each year [0.01 m²]; 0 where it holds.</summary>
    /// <param name="choice">For each deck the number of its option.</param>
    public long[] MissedBy(ReadOnlySpan<int> choice)
    {
        var missed = new long[DamagedAtMost.Length];
        for (var y = 0; y < missed.Length; y++)
        {
            if (DamagedAtMost[y] is not { } most)
            {
                continue;
            }

            long damaged = 0;
            for (var d = 0; d < choice.Length; d++)
            {
                damaged += Decks[d].Options[choice[d]].DamagedByYear[y];
            }

            missed[y] = Math.Max(0, damaged - most);
        }

        return missed;
    }

    /// <summary>Whether a choice keeps the budgets and the limits of closures.</summary>
    /// <param name="choice">For each deck the number of its option.</param>
    public bool Keeps(ReadOnlySpan<int> choice)
    {
        var room = new ProgramRoom(this);
        for (var d = 0; d < choice.Length; d++)
        {
            if (!room.TryTake(d, Decks[d].Options[choice[d]]))
            {
                return false;
            }
        }

        return true;
    }
}
