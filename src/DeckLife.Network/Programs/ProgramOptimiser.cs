using System.Collections.Immutable;

namespace DeckLife.Network.Programs;

/// <summary>Chooses the program with the greatest value under the limits, by mixed-integer optimisation in whole numbers.</summary>
/// <remarks>
/// Equation: maximise Σ v(d,o) x(d,o) with Σₒ x(d,o) = 1 for each deck, Σ c(d,o,y) x(d,o) ≤ B(y) for each year, closures and condition
/// likewise, x in {0, 1}. Solver: branch and cut by SCIP within Google OR-Tools, on one thread and to a number of nodes, so that neither
/// clock nor processors decide. Money is in whole units: a budget is never exceeded, not even by rounding.
/// Checked by: ProgramOptimiserTests (equal to exhaustive search on 200 random programs).
/// </remarks>
public static class ProgramOptimiser
{
    /// <summary>Chooses the program.</summary>
    /// <param name="problem">The program.</param>
    /// <param name="limits">When the search ends; absent: the documented limits.</param>
    /// <param name="start">A choice to begin with that keeps the limits; the result is never worth less. Absent: one is made by rule.</param>
    /// <exception cref="InvalidOperationException">The solver broke a limit or gave no answer to a problem that has one: a defect.</exception>
    public static ProgramSolution Solve(
        ProgramProblem problem,
        SearchLimits? limits = null,
        ImmutableArray<int> start = default
    )
    {
        ArgumentNullException.ThrowIfNull(problem);
        limits ??= new();
        var first = Start(problem, start);
        using var model = new ProgramModel(problem);
        var leastMissed = 0L;
        if (model.HasCondition && problem.MissedBy(first.AsSpan()).Sum() > 0)
        {
            // First how little of the condition need be missed; nothing, where it can be held.
            model.MinimiseMissed();
            leastMissed = model.Run(limits with { Gap = 0 }, first) is { } kept
                ? problem.MissedBy((first = kept.Choice).AsSpan()).Sum()
                : problem.MissedBy(first.AsSpan()).Sum();
        }

        model.MaximiseValue(leastMissed);
        var found = model.Run(limits, first);
        var choice = first;
        // No solution found is no proof of none: the start is one.
        var bound = found?.Bound ?? MostOfEachDeck(problem);
        if (
            found is { } better
            && problem.ValueOf(better.Choice.AsSpan()) >= problem.ValueOf(first.AsSpan())
        )
        {
            choice = better.Choice;
        }

        if (!problem.Keeps(choice.AsSpan()))
        {
            throw new InvalidOperationException("The program found breaks a budget or a closure.");
        }

        var value = problem.ValueOf(choice.AsSpan());
        var missed = problem.MissedBy(choice.AsSpan());
        return new()
        {
            Choice = choice,
            Value = value,
            Bound = Math.Max(value, bound),
            Status =
                missed.Sum() > 0 ? ProgramStatus.ConditionMissed
                : bound <= value ? ProgramStatus.Optimal
                : ProgramStatus.WithinGap,
            Missed = [.. missed],
            Nodes = model.Nodes,
        };
    }

    private static ImmutableArray<int> Start(ProgramProblem problem, ImmutableArray<int> given)
    {
        var candidates = new[] { WorstFirst.ByReturn(problem), WorstFirst.Choose(problem) };
        var best = candidates[0];
        foreach (var other in given.IsDefault ? candidates : candidates.Append(given))
        {
            if (!problem.Keeps(other.AsSpan()))
            {
                continue;
            }

            var (missed, least) = (
                problem.MissedBy(other.AsSpan()).Sum(),
                problem.MissedBy(best.AsSpan()).Sum()
            );
            if (
                missed < least
                || (
                    missed == least
                    && problem.ValueOf(other.AsSpan()) > problem.ValueOf(best.AsSpan())
                )
            )
            {
                best = other;
            }
        }

        return best;
    }

    private static long MostOfEachDeck(ProgramProblem problem) =>
        problem.Decks.Sum(d => d.Options.Max(o => o.Value));
}
