// Runs the tests of an assembly against one mutant after another, all in this process: what a test host a mutant takes hours for takes minutes.
// usage: MutantRunner FOLDER TESTS INCLUDE EXCLUDE REPORT RESULTS
// FOLDER holds the tests with the mutated library beside them, REPORT is dotnet-stryker's list of mutants. A line of RESULTS is a mutant, its fate and
// the test that decided it. Exit code 3: a mutant never came to an end; begin again, and those that are done are passed over.
using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using System.Runtime.Loader;
using System.Text.Json;
using System.Text.RegularExpressions;
using FsCheck;
using Xunit;
using Xunit.Sdk;

var (folder, name, include, exclude, report, results) = (
    args[0],
    args[1],
    new Regex(args[2]),
    new Regex(args[3]),
    args[4],
    args[5]
);
AssemblyLoadContext.Default.Resolving += (context, wanted) =>
{
    var file = Path.Combine(folder, wanted.Name + ".dll");
    return File.Exists(file) ? context.LoadFromAssemblyPath(file) : null;
};
Assembly Load(string dll) =>
    AssemblyLoadContext.Default.LoadFromAssemblyPath(Path.Combine(folder, dll + ".dll"));
var control = Load(name[..^".Tests".Length]).GetTypes().Single(t => t.Name == "MutantControl");
var active = control.GetField("ActiveMutant")!;
var capture = control.GetField("CaptureCoverage")!;
IList<int>[] Reached() => (IList<int>[])control.GetMethod("GetCoverageData")!.Invoke(null, null)!;
active.SetValue(null, -1);

var cases = Load(name)
    .GetTypes()
    .Where(t => include.IsMatch(t.FullName!))
    .SelectMany(Cases)
    .ToArray();

// What each test reaches, and how long it takes; what is made once for all tests is made here, without a mutant.
var covering = new Dictionary<int, List<int>>();
var once = new HashSet<int>();
var took = new double[cases.Length];
capture.SetValue(null, true);
for (var k = 0; k < cases.Length; k++)
{
    _ = Reached();
    var watch = Stopwatch.StartNew();
    var failure = Failure(cases[k].Run);
    took[k] = watch.Elapsed.TotalMilliseconds;
    var reached = Reached();
    if (failure is not null)
    {
        Console.Error.WriteLine($"left out, fails without a mutant: {cases[k].Name}: {failure}");
        continue;
    }

    once.UnionWith(reached[1]);
    foreach (var id in reached[0].Distinct())
    {
        (covering.TryGetValue(id, out var list) ? list : covering[id] = []).Add(k);
    }
}

capture.SetValue(null, false);
var done = File.Exists(results)
    ? File.ReadLines(results).Select(l => l.Split('\t')[0]).ToHashSet()
    : [];
foreach (var id in Mutants(report).Order())
{
    var text = id.ToString(CultureInfo.InvariantCulture);
    if (done.Contains(text))
    {
        continue;
    }

    if (!covering.TryGetValue(id, out var tests))
    {
        // A value made once, before any mutant is active, is out of this program's reach.
        Write(once.Contains(id) ? "Survived" : "NoCoverage", "");
        continue;
    }

    var (fate, by) = ("Survived", "");
    var thread = new Thread(
        () =>
        {
            active.SetValue(null, id);
            foreach (var k in tests.OrderBy(k => took[k]))
            {
                by = cases[k].Name;
                if (Failure(cases[k].Run) is not null)
                {
                    fate = "Killed";
                    break;
                }
            }
        },
        64 << 20
    )
    {
        IsBackground = true,
    };
    File.WriteAllText(results + ".now", text);
    thread.Start();
    if (!thread.Join(TimeSpan.FromMilliseconds(20_000 + (10 * tests.Sum(k => took[k])))))
    {
        Write("Timeout", by);
        return 3;
    }

    active.SetValue(null, -1);
    Write(fate, fate == "Killed" ? by : "");

    void Write(string what, string test) =>
        File.AppendAllText(results, $"{text}\t{what}\t{test}\n");
}

return 0;

// Those that are neither left out nor failed to compile.
static IEnumerable<int> Mutants(string report)
{
    using var json = JsonDocument.Parse(File.ReadAllText(report));
    foreach (var file in json.RootElement.GetProperty("files").EnumerateObject())
    {
        foreach (var mutant in file.Value.GetProperty("mutants").EnumerateArray())
        {
            if (mutant.GetProperty("status").GetString() is not ("Ignored" or "CompileError"))
            {
                yield return int.Parse(
                    mutant.GetProperty("id").GetString()!,
                    CultureInfo.InvariantCulture
                );
            }
        }
    }
}

// The tests of a class: facts, rows of theories, and properties; classes that ask for a fixture or a log are left out.
IEnumerable<(string Name, Action Run)> Cases(Type type)
{
    if (type.IsAbstract || type.GetConstructor(Type.EmptyTypes) is null)
    {
        yield break;
    }

    foreach (var method in type.GetMethods())
    {
        var full = $"{type.FullName}.{method.Name}";
        var fact = method.GetCustomAttribute<FactAttribute>();
        if (fact is null || exclude.IsMatch(full))
        {
            continue;
        }

        if (fact is TheoryAttribute)
        {
            foreach (
                var row in method
                    .GetCustomAttributes<DataAttribute>()
                    .SelectMany(a => a.GetData(method))
            )
            {
                object?[] values =
                [
                    .. method.GetParameters().Select((p, i) => As(row[i], p.ParameterType)),
                ];
                yield return (
                    $"{full}({string.Join(", ", row)})",
                    () => Call(type, method, values)
                );
            }
        }
        else if (method.GetParameters().Length == 0)
        {
            yield return (full, () => Call(type, method, []));
        }
    }
}

static object? As(object? value, Type wanted)
{
    var type = Nullable.GetUnderlyingType(wanted) ?? wanted;
    return value is null || type.IsInstanceOfType(value)
        ? value
        : Convert.ChangeType(value, type, CultureInfo.InvariantCulture);
}

static void Call(Type type, MethodInfo method, object?[] values)
{
    var result = method.Invoke(Activator.CreateInstance(type), values);
    if (result is Property property)
    {
        Check.One(Config.QuickThrowOnFailure.WithQuietOnSuccess(true), property);
    }

    (result as Task)?.GetAwaiter().GetResult();
}

// Any exception of a test, whatever its kind, tells that it failed.
#pragma warning disable CA1031
static string? Failure(Action run)
{
    try
    {
        run();
        return null;
    }
    catch (Exception e)
    {
        return (e.InnerException ?? e).Message;
    }
}
