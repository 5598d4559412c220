using System.Collections.Immutable;
using DeckLife.Network.Programs;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Network.Tests;

/// <summary>Small random programs and the slow but sure way to their optimum.</summary>
internal static class InventedPrograms
{
    /// <summary>A program of 2 to 5 decks, 2 or 3 years and up to 6 options a deck; each third with a condition, each second with closures.</summary>
    public static ProgramProblem Make(int number, int decks = 0)
    {
        var random = new RandomStream(20310516, "invented programs", (ulong)number);
        var years = 2 + random.NextInteger(2);
        decks = decks == 0 ? 2 + random.NextInteger(4) : decks;
        var budgets = Enumerable
            .Range(0, years)
            .Select(_ => (long)(60 + random.NextInteger(120)) * decks / 2)
            .ToImmutableArray();
        var all = Enumerable.Range(0, decks).Select(_ => Deck(random, years)).ToImmutableArray();
        var problem = new ProgramProblem { Decks = all, Budgets = budgets };
        if (number % 2 == 0)
        {
            problem = problem with
            {
                MostClosuresAYear = 1 + random.NextInteger(2),
                MostClosuresACorridor = 1,
            };
        }

        if (number % 3 == 0)
        {
            var idle = Enumerable
                .Range(0, years)
                .Select(y => all.Sum(d => d.Options[0].DamagedByYear[y]))
                .ToArray();
            var share = 0.3 + 0.7 * random.NextUniform();
            problem = problem with
            {
                DamagedAtMost =
                [
                    .. idle.Select((d, y) => y == 0 ? (long?)null : (long)(d * share)),
                ],
            };
        }

        return problem;
    }

    /// <summary>The best choice by trying all: least miss of the condition first, then the greatest value.</summary>
    public static (long Missed, long Value) TryAll(ProgramProblem problem)
    {
        var choice = new int[problem.Decks.Length];
        var best = (Missed: long.MaxValue, Value: long.MinValue);
        while (true)
        {
            if (Keeps(problem, choice))
            {
                var missed = problem.MissedBy(choice).Sum();
                var value = choice.Select((o, d) => problem.Decks[d].Options[o].Value).Sum();
                if (missed < best.Missed || (missed == best.Missed && value > best.Value))
                {
                    best = (missed, value);
                }
            }

            var at = 0;
            while (at < choice.Length && ++choice[at] == problem.Decks[at].Options.Length)
            {
                choice[at++] = 0;
            }

            if (at == choice.Length)
            {
                return best;
            }
        }
    }

    /// <summary>Budgets and closures, written apart from the library's own check.</summary>
    public static bool Keeps(ProgramProblem problem, IReadOnlyList<int> choice)
    {
        for (var y = 0; y < problem.Budgets.Length; y++)
        {
            var year = y;
            var paid = Enumerable
                .Range(0, choice.Count)
                .Where(d => problem.Decks[d].Options[choice[d]].CostByYear[year] > 0)
                .ToArray();
            if (
                paid.Sum(d => problem.Decks[d].Options[choice[d]].CostByYear[year])
                    > problem.Budgets[year]
                || paid.Length > (problem.MostClosuresAYear ?? int.MaxValue)
                || paid.Where(d => problem.Decks[d].Corridor >= 0)
                    .GroupBy(d => problem.Decks[d].Corridor)
                    .Any(g => g.Count() > (problem.MostClosuresACorridor ?? int.MaxValue))
            )
            {
                return false;
            }
        }

        return true;
    }

    private static ProgramDeck Deck(RandomStream random, int years)
    {
        var share = Enumerable.Range(0, years).Select(y => 20 + 10 * y + random.NextInteger(50));
        var idle = share.Select(s => (long)s).ToImmutableArray();
        var options = ImmutableArray.CreateBuilder<ProgramOption>();
        options.Add(new(0, -1, [.. new long[years]], idle));
        var count = 1 + random.NextInteger(5);
        for (var o = 0; o < count; o++)
        {
            var start = random.NextInteger(years);
            var cost = new long[years];
            cost[start] = 10 + random.NextInteger(90);
            if (start + 1 < years && random.NextInteger(3) == 0)
            {
                cost[start + 1] = 5 + random.NextInteger(20);
            }

            var left = 0.1 + 0.8 * random.NextUniform();
            options.Add(
                new(
                    random.NextInteger(200) - 10,
                    start,
                    [.. cost],
                    [.. idle.Select((d, y) => y > start ? (long)Math.Ceiling(d * left) : d)]
                )
            );
        }

        return new(
            options.ToImmutable(),
            random.NextInteger(3) - 1,
            [.. idle.Select(d => (int)d * 1000)]
        );
    }
}
