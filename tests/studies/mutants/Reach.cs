using System.Diagnostics;
using System.Globalization;

namespace DeckLife.Studies.Mutants;

/// <summary>Which tests reach a mutant, the fastest first; kept in a file, so that a run that goes on need not ask again.</summary>
internal static class Reach
{
    public static Dictionary<int, int[]> Of(
        TestSuite suite,
        MutantSwitch mutants,
        string file,
        double slowest
    )
    {
        if (!File.Exists(file))
        {
            File.WriteAllLines(file + ".tmp", Ask(suite, mutants, slowest));
            File.Move(file + ".tmp", file);
        }

        return File.ReadLines(file)
            .Select(l => l.Split(' '))
            .SelectMany(p =>
                p.Skip(2)
                    .Select(m =>
                        (
                            Mutant: int.Parse(m, CultureInfo.InvariantCulture),
                            Test: int.Parse(p[0], CultureInfo.InvariantCulture),
                            Time: double.Parse(p[1], CultureInfo.InvariantCulture)
                        )
                    )
            )
            .GroupBy(t => t.Mutant)
            .ToDictionary(g => g.Key, g => g.OrderBy(t => t.Time).Select(t => t.Test).ToArray());
    }

    // Twice: what a test costs shows once everything is compiled.
    private static IEnumerable<string> Ask(TestSuite suite, MutantSwitch mutants, double slowest)
    {
        suite.Run(Enumerable.Range(0, suite.Count), 600);
        mutants.Captures = true;
        mutants.Passed();
        for (var test = 0; test < suite.Count; test++)
        {
            var clock = Stopwatch.StartNew();
            var outcome = suite.Run([test], 300);
            var seconds = clock.Elapsed.TotalSeconds;
            var passed = mutants.Passed();
            if (outcome.IsLate || outcome.Failed is not null)
            {
                Console.WriteLine($"left out, it fails without a mutant: {suite.Name(test)}");
            }
            else if (seconds > slowest)
            {
                Console.WriteLine(
                    FormattableString.Invariant($"left out, {seconds:F1} s: {suite.Name(test)}")
                );
            }
            else
            {
                yield return string.Join(
                    ' ',
                    passed
                        .Select(m => m.ToString(CultureInfo.InvariantCulture))
                        .Prepend(seconds.ToString("F4", CultureInfo.InvariantCulture))
                        .Prepend(test.ToString(CultureInfo.InvariantCulture))
                );
            }
        }

        mutants.Captures = false;
    }
}
