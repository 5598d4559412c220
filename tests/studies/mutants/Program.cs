using System.Globalization;
using System.Reflection;
using DeckLife.Studies.Mutants;

// Tries the mutants of an assembly that dotnet-stryker changed, all in one process: see mutate-data.sh.
//   scan ASSEMBLY LIST             lists its mutants: number, namespace, kind, member
//   try TESTS.dll ASSEMBLY RESULTS NUMBERS WITHOUT
//                                  tries each mutant of the file NUMBERS with the tests that reach it; those whose name holds a
//                                  part of WITHOUT (parted by semicolons) are left out. Ends with 3 after a test that never ended:
//                                  started again, it goes on behind it.
if (args is ["scan", var scanned, var list])
{
    File.WriteAllLines(list, MutantScan.Of(Assembly.LoadFrom(scanned)));
    return 0;
}

var (tests, assembly, results, numbers, without) = (args[1], args[2], args[3], args[4], args[5]);
const double Patience = 40;
const double Slowest = 2;
var mutants = new MutantSwitch(Assembly.LoadFrom(assembly));
var suite = new TestSuite(
    Assembly.LoadFrom(tests),
    without.Split(';', StringSplitOptions.RemoveEmptyEntries)
);

// A number stands in the file of results before its test begins: what ends the process is then known.
var done = File.Exists(results)
    ? File.ReadLines(results)
        .Select(l => int.Parse(l.Split(' ')[0], CultureInfo.InvariantCulture))
        .ToHashSet()
    : [];
var reach = Reach.Of(suite, mutants, results + ".reach", Slowest);
foreach (
    var mutant in File.ReadLines(numbers)
        .Select(n => int.Parse(n, CultureInfo.InvariantCulture))
        .Where(n => !done.Contains(n))
)
{
    if (!reach.TryGetValue(mutant, out var those))
    {
        File.AppendAllLines(results, [$"{mutant} NoCoverage"]);
        continue;
    }

    File.WriteAllText(results + ".now", mutant.ToString(CultureInfo.InvariantCulture));
    mutants.Active = mutant;
    var outcome = suite.Run(those, Patience);
    mutants.Active = MutantSwitch.None;
    File.AppendAllLines(
        results,
        [
            outcome.IsLate ? $"{mutant} Timeout"
            : outcome.Failed is { } killer ? $"{mutant} Killed {killer}"
            : $"{mutant} Survived",
        ]
    );
    if (outcome.IsLate)
    {
        Environment.Exit(3);
    }
}

Environment.Exit(0);
return 0;
