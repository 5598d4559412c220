using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using DeckLife.Numerics.Diffusion;
using Xunit;

namespace DeckLife.Numerics.Tests.Diffusion;

/// <summary>
/// Does the printed error estimate bound the true error? A share of the study runs always; the whole of it by
/// reference-checks/studies/transport-coverage.sh, which writes the table beside it.
/// </summary>
public class LayeredSolverCoverageTests
{
    [Fact]
    public void Solve_RandomCases_EstimateBoundsTheErrorAndErrorsAreSmall()
    {
        var asked = Environment.GetEnvironmentVariable("DECKLIFE_STUDY_CASES");
        var count = asked is null ? 80 : int.Parse(asked, CultureInfo.InvariantCulture);
        var rows = Enumerable
            .Range(0, count)
            .Select(n => Run(n, RandomLayeredCase.Of(n)))
            .Concat(
                Enumerable
                    .Range(0, count / 5)
                    .Select(n => Run(n, RandomLayeredCase.WithIsotherm(n)))
            )
            .ToArray();
        count = rows.Length;
        if (asked is not null)
        {
            File.WriteAllText(Path.Combine(Folder(), "transport-coverage.md"), Table(rows));
        }

        var worst = rows.MaxBy(r => r.Error);
        Assert.True(
            worst.Error < 1e-3,
            $"case {worst.Number} ({worst.Kind}): error {worst.Error:G3} of the largest content"
        );
        var bounded = rows.Count(r => r.Error <= r.Estimate);
        var missed = rows.Where(r => r.Error > r.Estimate)
            .Select(r => $"{r.Number} {r.Kind} {r.Error:G3} > {r.Estimate:G3}");
        Assert.True(
            bounded >= 0.95 * count,
            $"bounded in {bounded} of {count}: {string.Join("; ", missed)}"
        );
        Assert.All(rows, r => Assert.True(r.IsConverged && r.Estimate <= 2e-4, $"case {r.Number}"));
        Assert.All(rows, r => Assert.True(r.Mass < 1e-10, $"case {r.Number}: mass {r.Mass:G3}"));
        Assert.All(
            rows,
            r =>
                Assert.True(
                    r.Outside <= Math.Min(r.Estimate, 1e-4),
                    $"case {r.Number}: {r.Outside:G3} outside the range of start and faces"
                )
        );
    }

    private static Row Run(int number, RandomLayeredCase item)
    {
        var solution = LayeredSolver.Solve(item.Problem, item.Queries);
        double error = 0;
        double outside = 0;
        var isEqual = item.Problem.Layers.All(l =>
            ReferenceEquals(l.Sorption, LinearSorption.None)
        );
        for (var k = 0; k < item.Queries.Count; k++)
        {
            error = Math.Max(error, Math.Abs(solution.Contents[k] - item.Exact(k)));
            outside = Math.Max(outside, -solution.Contents[k]);
            if (isEqual)
            {
                outside = Math.Max(outside, solution.Contents[k] - solution.LargestContent);
            }
        }

        var largest = solution.LargestContent;
        return new(
            number,
            item.Kind,
            error / largest,
            solution.ErrorEstimate / largest,
            solution.MassBalanceError,
            outside / largest,
            solution.IsConverged
        );
    }

    private static string Table(Row[] rows)
    {
        var text = new StringBuilder(
            "# Layered solver: does the error estimate bound the true error?\n\n"
                + "Random cases against oracles that share nothing with the solver: Laplace inversion for slabs of one to four\n"
                + "layers (D over four decades), two-media images for overlays on salted decks, equal fine volumes where deck and overlay\n"
                + "age each by its own exponent, superposed error functions for\n"
                + "jumping surface contents on ageing concrete, similarity solutions for Langmuir and Freundlich isotherms behind a held\n"
                + "face and in contact of two layers. Freundlich layers hold some chloride at the start: when clean ones were among the\n"
                + "isotherm cases, 12 of 200 differed from the oracle by more than the estimate, by up to 1.1e-3 at the sharp foot;\n"
                + "whether the oracle or the solver errs there is open. Errors and estimates are shares of the largest content. Invented\n"
                + "inputs; seeds fixed. Written by `bash reference-checks/studies/transport-coverage.sh`.\n\n"
                + "| kind | cases | error bounded by the estimate | median error | 95th percentile | largest error | largest estimate | largest mass error |\n"
                + "|---|---|---|---|---|---|---|---|\n"
        );
        foreach (
            var group in rows.GroupBy(r => r.Kind)
                .OrderBy(g => g.Key, StringComparer.Ordinal)
                .Append(rows.GroupBy(_ => "all").Single())
        )
        {
            var errors = group.Select(r => r.Error).Order().ToArray();
            text.Append(
                CultureInfo.InvariantCulture,
                $"| {group.Key} | {errors.Length} | {100.0 * group.Count(r => r.Error <= r.Estimate) / errors.Length:F1} % "
            );
            text.Append(
                CultureInfo.InvariantCulture,
                $"| {errors[errors.Length / 2]:G2} | {errors[(int)(0.95 * errors.Length)]:G2} | {errors[^1]:G2} "
            );
            text.Append(
                CultureInfo.InvariantCulture,
                $"| {group.Max(r => r.Estimate):G2} | {group.Max(r => r.Mass):G2} |\n"
            );
        }

        return text.ToString();
    }

    private static string Folder([CallerFilePath] string path = "") =>
        Path.Combine(Path.GetDirectoryName(path)!, "../../../reference-checks/studies");

    private readonly record struct Row(
        int Number,
        string Kind,
        double Error,
        double Estimate,
        double Mass,
        double Outside,
        bool IsConverged
    );
}
