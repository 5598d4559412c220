using System.Collections.Immutable;

namespace DeckLife.Network.Programs;

/// <summary>Programs put together by rule, year by year: what an optimum is held against.</summary>
public static class WorstFirst
{
    /// <summary>Each year the deck with the largest expected share damaged comes first, then the next, as far as money and closures go.</summary>
    /// <param name="problem">The program.</param>
    /// <returns>For each deck the number of its option.</returns>
    /// <remarks>
    /// A deck gets the option of that year with the greatest value among those that there is room for, and at most one in the program;
    /// where none has room, the next deck is looked at. Equal shares go in the order of the decks.
    /// </remarks>
    public static ImmutableArray<int> Choose(ProgramProblem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var room = new ProgramRoom(problem);
        var choice = new int[problem.Decks.Length];
        for (var y = 0; y < problem.Budgets.Length; y++)
        {
            var year = y;
            var order = Enumerable
                .Range(0, choice.Length)
                .Where(d => choice[d] == 0)
                .OrderByDescending(d => problem.Decks[d].DamagedPpm[year]);
            foreach (var deck in order)
            {
                var options = problem.Decks[deck].Options;
                var best = Enumerable
                    .Range(1, options.Length - 1)
                    .Where(o => options[o].StartYear == year && options[o].Value > 0)
                    .OrderByDescending(o => options[o].Value);
                foreach (var option in best)
                {
                    if (room.TryTake(deck, options[option]))
                    {
                        choice[deck] = option;
                        break;
                    }
                }
            }
        }

        return [.. choice];
    }

    /// <summary>The options with the most value for their cost come first: where the optimiser starts from.</summary>
    /// <param name="problem">The program.</param>
    /// <returns>For each deck the number of its option.</returns>
    internal static ImmutableArray<int> ByReturn(ProgramProblem problem)
    {
        var room = new ProgramRoom(problem);
        var choice = new int[problem.Decks.Length];
        var order = problem
            .Decks.SelectMany(
                (d, i) => d.Options.Select((o, n) => (Deck: i, Number: n, Option: o)).Skip(1)
            )
            .Where(t => t.Option.Value > 0)
            .OrderByDescending(t => t.Option.Value / (double)Math.Max(1, t.Option.Cost));
        foreach (var (deck, number, option) in order)
        {
            if (choice[deck] == 0 && room.TryTake(deck, option))
            {
                choice[deck] = number;
            }
        }

        return [.. choice];
    }
}
