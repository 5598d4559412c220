using System.Collections.Immutable;
using System.Globalization;
using Google.OrTools.Sat;

namespace DeckLife.Network.Programs;

/// <summary>A program in the solver's terms.</summary>
internal sealed class ProgramModel
{
    private readonly ProgramProblem problem;
    private readonly CpModel model = new();
    private readonly List<(int Deck, int Option, BoolVar Chosen)> chosen = [];
    private readonly List<IntVar> missed = [];

    /// <summary>Writes the limits down; options that another one beats in every respect are left out.</summary>
    public ProgramModel(ProgramProblem problem)
    {
        this.problem = problem;
        for (var d = 0; d < problem.Decks.Length; d++)
        {
            var ofDeck = new List<ILiteral>();
            var options = problem.Decks[d].Options;
            for (var o = 0; o < options.Length; o++)
            {
                if (o > 0 && (IsTooDear(options[o]) || IsBeaten(options, o)))
                {
                    continue;
                }

                var one = model.NewBoolVar("");
                chosen.Add((d, o, one));
                ofDeck.Add(one);
            }

            model.AddExactlyOne(ofDeck);
        }

        for (var y = 0; y < problem.Budgets.Length; y++)
        {
            LimitYear(y);
        }

        LimitCondition();
    }

    /// <summary>Whether a condition is asked for.</summary>
    public bool HasCondition => missed.Count > 0;

    /// <summary>Work done so far, in the solver's deterministic units.</summary>
    public double DeterministicTime { get; private set; }

    /// <summary>Asks for the least miss of the condition.</summary>
    public void MinimiseMissed() => model.Minimize(LinearExpr.Sum(missed));

    /// <summary>Asks for the greatest value that misses the condition by no more than so much.</summary>
    public void MaximiseValue(long mostMissed)
    {
        if (HasCondition)
        {
            model.Add(LinearExpr.Sum(missed) <= mostMissed);
        }

        model.Maximize(Sum(chosen, c => Option(c).Value));
    }

    /// <summary>Searches.</summary>
    /// <returns>The best choice found and the bound on its objective; nothing where none was found within the limit.</returns>
    public (ImmutableArray<int> Choice, long Bound)? Run(
        SearchLimits limits,
        ImmutableArray<int> start
    )
    {
        model.Model.SolutionHint = null;
        foreach (var c in chosen)
        {
            model.AddHint(c.Chosen, start[c.Deck] == c.Option ? 1 : 0);
        }

        var solver = new CpSolver
        {
            StringParameters = string.Create(
                CultureInfo.InvariantCulture,
                $"num_workers:1,random_seed:1,linearization_level:2,max_deterministic_time:{limits.DeterministicTime:R},relative_gap_limit:{limits.Gap:R}"
            ),
        };
        var status = solver.Solve(model);
        DeterministicTime += solver.Response?.DeterministicTime ?? 0;
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
        {
            return null;
        }

        var choice = new int[problem.Decks.Length];
        foreach (var c in chosen)
        {
            if (solver.BooleanValue(c.Chosen))
            {
                choice[c.Deck] = c.Option;
            }
        }

        // Objectives are whole numbers: half a unit below the bound is below it.
        return ([.. choice], (long)Math.Floor(solver.BestObjectiveBound + 1e-6));
    }

    private void LimitYear(int year)
    {
        var paid = chosen.Where(c => Option(c).CostByYear[year] > 0).ToList();
        if (paid.Count == 0)
        {
            return;
        }

        model.Add(Sum(paid, c => Option(c).CostByYear[year]) <= problem.Budgets[year]);
        if (problem.MostClosuresAYear is { } most)
        {
            model.Add(Sum(paid, _ => 1) <= most);
        }

        if (problem.MostClosuresACorridor is { } ofCorridor)
        {
            var corridors = paid.GroupBy(c => problem.Decks[c.Deck].Corridor)
                .Where(g => g.Key >= 0)
                .OrderBy(g => g.Key);
            foreach (var corridor in corridors)
            {
                model.Add(Sum([.. corridor], _ => 1) <= ofCorridor);
            }
        }
    }

    private void LimitCondition()
    {
        for (var y = 0; y < problem.DamagedAtMost.Length; y++)
        {
            if (problem.DamagedAtMost[y] is not { } most)
            {
                continue;
            }

            var year = y;
            var worst = problem.Decks.Sum(d => d.Options.Max(o => o.DamagedByYear[year]));
            var slack = model.NewIntVar(0, Math.Max(0, worst), "");
            missed.Add(slack);
            model.Add(Sum(chosen, c => Option(c).DamagedByYear[year]) - slack <= most);
        }
    }

    private ProgramOption Option((int Deck, int Option, BoolVar Chosen) c) =>
        problem.Decks[c.Deck].Options[c.Option];

    private bool IsTooDear(ProgramOption option)
    {
        for (var y = 0; y < problem.Budgets.Length; y++)
        {
            if (option.CostByYear[y] > problem.Budgets[y])
            {
                return true;
            }
        }

        return false;
    }

    // Another option of the deck costs no more in any year, is worth no less and leaves no more damage; of equals the first stays.
    private static bool IsBeaten(ImmutableArray<ProgramOption> options, int number)
    {
        var option = options[number];
        for (var o = 0; o < options.Length; o++)
        {
            var other = options[o];
            if (
                o != number
                && other.Value >= option.Value
                && NoneAbove(other.CostByYear, option.CostByYear)
                && NoneAbove(other.DamagedByYear, option.DamagedByYear)
                && (
                    o < number
                    || other.Value > option.Value
                    || !other.CostByYear.AsSpan().SequenceEqual(option.CostByYear.AsSpan())
                    || !other.DamagedByYear.AsSpan().SequenceEqual(option.DamagedByYear.AsSpan())
                )
            )
            {
                return true;
            }
        }

        return false;
    }

    private static bool NoneAbove(ImmutableArray<long> values, ImmutableArray<long> limits)
    {
        for (var i = 0; i < values.Length; i++)
        {
            if (values[i] > limits[i])
            {
                return false;
            }
        }

        return true;
    }

    private static LinearExpr Sum(
        List<(int Deck, int Option, BoolVar Chosen)> terms,
        Func<(int Deck, int Option, BoolVar Chosen), long> weight
    ) =>
        LinearExpr.WeightedSum(
            terms.Select(t => (LinearExpr)t.Chosen).ToArray(),
            terms.Select(weight).ToArray()
        );
}
