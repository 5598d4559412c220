using System.Collections.Immutable;
using DeckLife.Network.Programs;
using Xunit;

namespace DeckLife.Network.Tests;

public class ProgramOptimiserTests
{
    private static readonly SearchLimits ToTheEnd = new() { Nodes = 100_000, Gap = 0 };

    [Fact]
    public void Solve_TwoHundredSmallRandomPrograms_EqualsExhaustiveSearch()
    {
        for (var number = 0; number < 200; number++)
        {
            var problem = InventedPrograms.Make(number);
            var (missed, value) = InventedPrograms.TryAll(problem);

            var found = ProgramOptimiser.Solve(problem, ToTheEnd);

            Assert.True(
                InventedPrograms.Keeps(problem, found.Choice),
                $"program {number} breaks a budget or a closure"
            );
            Assert.True(
                missed == found.Missed.Sum(),
                $"program {number}: {missed} need be missed, {found.Missed.Sum()} is"
            );
            Assert.True(
                value == found.Value,
                $"program {number}: {value} by trying all, {found.Value} found"
            );
            Assert.Equal(value, found.Bound);
            Assert.Equal(
                missed > 0 ? ProgramStatus.ConditionMissed : ProgramStatus.Optimal,
                found.Status
            );
        }
    }

    [Fact]
    public void Make_TwoHundredPrograms_HoldEveryKindOfLimit()
    {
        var all = Enumerable.Range(0, 200).Select(n => InventedPrograms.Make(n)).ToArray();

        // Otherwise equality with exhaustive search would say little: limits bind in some programs and conditions can't be held in some.
        Assert.Contains(all, p => !InventedPrograms.Keeps(p, [.. p.Decks.Select(BestAlone)]));
        Assert.Contains(all, p => InventedPrograms.TryAll(p).Missed > 0);
        Assert.Contains(
            all,
            p => p.DamagedAtMost.Length > 0 && InventedPrograms.TryAll(p).Missed == 0
        );

        static int BestAlone(ProgramDeck deck) =>
            Enumerable.Range(0, deck.Options.Length).MaxBy(o => deck.Options[o].Value);
    }

    [Fact]
    public void Solve_MoreMoney_IsNeverWorseBeyondTheGap()
    {
        for (var number = 1; number < 40; number += 2)
        {
            var problem = InventedPrograms.Make(number, decks: 12) with { DamagedAtMost = [] };
            var limits = new SearchLimits { Nodes = 20, Gap = 0 };
            var before = 0L;
            foreach (var factor in new[] { 0, 0.25, 0.5, 0.75, 1, 1.5 })
            {
                var found = ProgramOptimiser.Solve(problem.WithBudgets(factor), limits);
                Assert.True(
                    found.Bound >= before,
                    $"program {number}: with {factor} of the money no program is worth more than {found.Bound}, with less there was {before}"
                );
                before = found.Value;
            }
        }
    }

    [Fact]
    public void Solve_StartGiven_IsNeverWorthLess()
    {
        var problem = InventedPrograms.Make(7, decks: 30) with { DamagedAtMost = [] };
        var good = ProgramOptimiser.Solve(problem, ToTheEnd);

        // So little work that the solver may find nothing by itself.
        var again = ProgramOptimiser.Solve(problem, new() { Nodes = 1, Gap = 0 }, good.Choice);

        Assert.True(again.Value >= good.Value);
        Assert.True(again.Bound >= again.Value);
    }

    [Fact]
    public void Solve_Twice_GivesTheSameProgram()
    {
        var problem = InventedPrograms.Make(9, decks: 40);
        var limits = new SearchLimits { Nodes = 50, Gap = 0 };

        var first = ProgramOptimiser.Solve(problem, limits);
        var second = ProgramOptimiser.Solve(problem, limits);

        Assert.Equal(first.Choice.AsEnumerable(), second.Choice);
        Assert.Equal(first.Bound, second.Bound);
    }

    [Fact]
    public void WorstFirst_DeckWithTheLargestShare_IsTreatedFirst()
    {
        ProgramDeck Deck(int ppm) =>
            new(
                [new(0, -1, [0, 0], []), new(50, 0, [100, 0], []), new(40, 1, [0, 100], [])],
                -1,
                [ppm, ppm]
            );
        var problem = new ProgramProblem
        {
            Decks = [Deck(10_000), Deck(90_000), Deck(50_000)],
            Budgets = [150, 100],
        };

        ImmutableArray<int> choice = WorstFirst.Choose(problem);

        // Money for one a year: the worst in the first year, the next in the second, nothing for the third.
        Assert.Equal([0, 1, 2], choice.ToArray());
    }
}
