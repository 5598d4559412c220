using System.Collections.Immutable;
using System.Globalization;
using Google.OrTools.LinearSolver;

namespace DeckLife.Network.Programs;

/// <summary>A program in the solver's terms.</summary>
internal sealed class ProgramModel : IDisposable
{
    // The solver holds a limit to this share of it: whole money below half its reciprocal is held exactly, larger budgets are held short
    // by twice it. A finer tolerance (1e-9) was tried: slower, and the programs found within the same nodes were worse.
    private const double Tolerance = 1e-6;

    private readonly ProgramProblem problem;
    private readonly Solver solver = Solver.CreateSolver("SCIP");
    private readonly List<(int Deck, int Option, Variable Chosen)> chosen = [];
    private readonly List<Variable> missed = [];

    /// <summary>Writes the limits down; options that another one beats in every respect are left out.</summary>
    public ProgramModel(ProgramProblem problem)
    {
        this.problem = problem;
        for (var d = 0; d < problem.Decks.Length; d++)
        {
            var one = solver.MakeConstraint(1, 1);
            var options = problem.Decks[d].Options;
            for (var o = 0; o < options.Length; o++)
            {
                if (o > 0 && (IsTooDear(options[o]) || IsBeaten(options, o)))
                {
                    continue;
                }

                var variable = solver.MakeBoolVar("");
                chosen.Add((d, o, variable));
                one.SetCoefficient(variable, 1);
            }
        }

        for (var y = 0; y < problem.Budgets.Length; y++)
        {
            LimitYear(y);
        }

        LimitCondition();
    }

    /// <summary>Whether a condition is asked for.</summary>
    public bool HasCondition => missed.Count > 0;

    /// <summary>Nodes of the search tree so far.</summary>
    public long Nodes { get; private set; }

    /// <summary>Asks for the least miss of the condition.</summary>
    public void MinimiseMissed()
    {
        var objective = solver.Objective();
        foreach (var slack in missed)
        {
            objective.SetCoefficient(slack, 1);
        }

        objective.SetMinimization();
    }

    /// <summary>Asks for the greatest value that misses the condition by no more than so much.</summary>
    public void MaximiseValue(long mostMissed)
    {
        if (HasCondition)
        {
            var held = AtMost(mostMissed);
            foreach (var slack in missed)
            {
                held.SetCoefficient(slack, 1);
            }
        }

        var objective = solver.Objective();
        objective.Clear();
        foreach (var c in chosen)
        {
            objective.SetCoefficient(c.Chosen, Option(c).Value);
        }

        objective.SetMaximization();
    }

    /// <summary>Searches.</summary>
    /// <returns>The best choice found and the bound on its objective; nothing where none was found within the limit.</returns>
    public (ImmutableArray<int> Choice, long Bound)? Run(
        SearchLimits limits,
        ImmutableArray<int> start
    )
    {
        solver.SetHint(
            [.. chosen.Select(c => c.Chosen)],
            [.. chosen.Select(c => start[c.Deck] == c.Option ? 1.0 : 0.0)]
        );
        solver.SetSolverSpecificParametersAsString(
            string.Create(
                CultureInfo.InvariantCulture,
                $"limits/totalnodes = {limits.Nodes}\nlimits/gap = {limits.Gap:R}\n"
            )
        );
        using var parameters = new MPSolverParameters();
        parameters.SetDoubleParam(MPSolverParameters.DoubleParam.RELATIVE_MIP_GAP, limits.Gap);
        var status = solver.Solve(parameters);
        Nodes += solver.Nodes();
        if (status is not (Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.FEASIBLE))
        {
            return null;
        }

        var choice = new int[problem.Decks.Length];
        foreach (var c in chosen)
        {
            if (c.Chosen.SolutionValue() > 0.5)
            {
                choice[c.Deck] = c.Option;
            }
        }

        // Objectives are whole numbers: half a unit below the bound is below it.
        var bound = solver.Objective().BestBound();
        return ([.. choice], (long)Math.Floor(bound + 1e-6 + 1e-9 * Math.Abs(bound)));
    }

    /// <inheritdoc/>
    public void Dispose() => solver.Dispose();

    private void LimitYear(int year)
    {
        var paid = chosen.Where(c => Option(c).CostByYear[year] > 0).ToList();
        if (paid.Count == 0)
        {
            return;
        }

        var budget = problem.Budgets[year];
        Limit(paid, c => Option(c).CostByYear[year], budget - Math.Floor(2 * Tolerance * budget));
        if (problem.MostClosuresAYear is { } most)
        {
            Limit(paid, _ => 1, most);
        }

        if (problem.MostClosuresACorridor is { } ofCorridor)
        {
            var corridors = paid.GroupBy(c => problem.Decks[c.Deck].Corridor)
                .Where(g => g.Key >= 0)
                .OrderBy(g => g.Key);
            foreach (var corridor in corridors)
            {
                Limit(corridor, _ => 1, ofCorridor);
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
            var slack = solver.MakeIntVar(0, Math.Max(0, worst), "");
            missed.Add(slack);
            Limit(chosen, c => Option(c).DamagedByYear[year], most).SetCoefficient(slack, -1);
        }
    }

    private ProgramOption Option((int Deck, int Option, Variable Chosen) c) =>
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

    private Constraint Limit(
        IEnumerable<(int Deck, int Option, Variable Chosen)> terms,
        Func<(int Deck, int Option, Variable Chosen), long> weight,
        double most
    )
    {
        var limit = AtMost(most);
        foreach (var term in terms)
        {
            limit.SetCoefficient(term.Chosen, weight(term));
        }

        return limit;
    }

    private Constraint AtMost(double most) => solver.MakeConstraint(double.NegativeInfinity, most);
}
