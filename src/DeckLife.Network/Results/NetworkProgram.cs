using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Network.Condition;
using DeckLife.Network.Decks;
using DeckLife.Network.Programs;
using DeckLife.Projection;

namespace DeckLife.Network.Results;

/// <summary>From projected decks to programs: two passes over them, so that their draws are never all in memory.</summary>
public static class NetworkProgram
{
    private const double Dm2 = 0.01;

    /// <summary>Makes the programs.</summary>
    /// <param name="network">The network.</param>
    /// <param name="records">Gives every deck once, in the network's order; asked twice.</param>
    /// <param name="limits">When a search ends; absent: the documented limits.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <exception cref="OperationCanceledException">It was ended early.</exception>
    public static NetworkResult Solve(
        NetworkDefinition network,
        Func<IEnumerable<DeckRecord>> records,
        SearchLimits? limits = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(network);
        ArgumentNullException.ThrowIfNull(records);
        var builder = new ProgramBuilder(network);
        var prices = "";
        foreach (var record in OfOneCurrency(records()))
        {
            if (record.IsProjected)
            {
                prices = record.Prices;
                builder.Add(record);
            }
        }

        var problem = builder.ToProblem();
        var worstFirst = WorstFirst.Choose(problem);
        var (best, values) = Budgets(network, problem, limits, cancellation);
        var choices = new[] { [.. new int[problem.Decks.Length]], worstFirst, best.Choice };
        var counts = choices.Select(_ => new ConditionCounts(network)).ToArray();
        var rows = ImmutableArray.CreateBuilder<DeckRow>();
        var place = 0;
        foreach (var record in OfOneCurrency(records()))
        {
            cancellation.ThrowIfCancellationRequested();
            if (!record.IsProjected)
            {
                rows.Add(Row(network, record, null));
                continue;
            }

            for (var p = 0; p < choices.Length; p++)
            {
                counts[p].Add(record, choices[p][place]);
            }

            var at = place;
            rows.Add(Row(network, record, [.. choices.Select(c => c[at])]));
            place++;
        }

        NetworkPlan Plan(string name, int p) =>
            new(
                name,
                [.. problem.SpentBy(choices[p].AsSpan())],
                [.. problem.ClosuresBy(choices[p].AsSpan())],
                problem.ValueOf(choices[p].AsSpan()) * Dm2,
                counts[p].ToYears()
            );

        var area = counts[0].AreaDm2;
        ImmutableArray<double> missed = [.. best.Missed.Select(m => m / (double)Math.Max(1, area))];
        return new()
        {
            Network = network,
            Decks = rows.ToImmutable(),
            AreaM2 = area * Dm2,
            Prices = prices,
            Nothing = Plan("do nothing", 0),
            WorstFirst = Plan("worst first", 1),
            Best = Plan("best program", 2),
            Status = best.Status,
            Gap = best.Gap,
            SearchNodes = best.Nodes,
            ConditionMissed = missed,
            BudgetValues = values,
            Flags = Flags(network, rows, missed),
        };
    }

    // In rising order, each beginning from the program of the smaller budget: more money is never worth less.
    private static (ProgramSolution Best, ImmutableArray<BudgetValue> Values) Budgets(
        NetworkDefinition network,
        ProgramProblem problem,
        SearchLimits? limits,
        CancellationToken cancellation
    )
    {
        var values = ImmutableArray.CreateBuilder<BudgetValue>();
        ProgramSolution? best = null;
        ImmutableArray<int> start = default;
        foreach (var factor in network.BudgetFactors.Append(1).Distinct().Order())
        {
            cancellation.ThrowIfCancellationRequested();
            var other = problem.WithBudgets(factor);
            var solution = ProgramOptimiser.Solve(other, limits, start);
            start = solution.Choice;
            best = factor == 1 ? solution : best;
            values.Add(
                new(
                    factor,
                    other.Budgets.Sum(),
                    other.SpentBy(solution.Choice.AsSpan()).Sum(),
                    solution.Value * Dm2,
                    solution.Bound * Dm2,
                    solution.Status,
                    solution.Gap
                )
            );
        }

        return (best!, values.ToImmutable());
    }

    private static IEnumerable<DeckRecord> OfOneCurrency(IEnumerable<DeckRecord> records)
    {
        string? prices = null;
        foreach (var record in records)
        {
            if (record.IsProjected && record.Prices != (prices ??= record.Prices))
            {
                yield return record with
                {
                    Failure =
                        $"its prices are in {record.Prices}, those of the decks before it in {prices}: one program needs one currency and price year",
                };
            }
            else
            {
                yield return record;
            }
        }
    }

    private static DeckRow Row(NetworkDefinition network, DeckRecord record, int[]? choices)
    {
        var row = new DeckRow
        {
            Member = network.Members[record.Index],
            Name = record.Name,
            Failure = record.Failure,
            AreaM2 = record.AreaDm2 * Dm2,
            SurveyYear = record.SurveyYear,
            Evidence = record.Evidence,
            Remarks = record.Remarks,
        };
        return choices is null
            ? row
            : row with
            {
                DamagedFirstYear = Band(network, record.Options[0], 0),
                Nothing = Choice(network, record, choices[0]),
                WorstFirst = Choice(network, record, choices[1]),
                Best = Choice(network, record, choices[2]),
            };
    }

    private static DeckChoice Choice(NetworkDefinition network, DeckRecord record, int number)
    {
        var option = record.Options[number];
        return new(
            option.Strategy,
            option.StartYear,
            option.CostByYear.Sum(),
            Band(network, option, network.ConditionYears - 1)
        );
    }

    private static PercentileBand Band(NetworkDefinition network, DeckOption option, int year) =>
        Percentiles.Band([
            .. Enumerable
                .Range(0, network.Draws)
                .Select(k => option.DamagedPpm[k * network.ConditionYears + year] / 1e6),
        ]);

    private static ImmutableArray<Diagnostic> Flags(
        NetworkDefinition network,
        IEnumerable<DeckRow> rows,
        ImmutableArray<double> missed
    )
    {
        var flags = ImmutableArray.CreateBuilder<Diagnostic>();
        foreach (var row in rows.Where(r => r.Failure is not null))
        {
            flags.Add(
                DiagnosticCatalogue.NetworkDeckFailed.With(
                    row.Member.Folder,
                    row.Name,
                    row.Failure!
                )
            );
        }

        if (missed.Any(m => m > 0))
        {
            flags.Add(
                DiagnosticCatalogue.NetworkConditionMissed.With(
                    FormattableString.Invariant($"{100 * network.DamagedAtMost:0.###} %"),
                    missed.Count(m => m > 0),
                    FormattableString.Invariant($"{100 * missed.Max():0.##} %")
                )
            );
        }

        return flags.ToImmutable();
    }
}
