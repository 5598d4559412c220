using System.Reflection;
using Xunit.Abstractions;
using Xunit.Sdk;

namespace DeckLife.Studies.Mutants;

/// <summary>The tests of an assembly, run in this process as often as asked.</summary>
internal sealed class TestSuite
{
    private readonly List<ITestCase> cases;
    private readonly ITestFrameworkExecutor executor;

    public TestSuite(Assembly tests, string[] without)
    {
        var framework = new XunitTestFramework(new Sink());
        var found = new Sink();
        framework.GetDiscoverer(Reflector.Wrap(tests)).Find(false, found, new Options());
        found.Done.Wait();
        cases =
        [
            .. found.Cases.Where(c =>
                !without.Any(w => c.DisplayName.Contains(w, StringComparison.Ordinal))
            ),
        ];
        executor = framework.GetExecutor(tests.GetName());
    }

    public int Count => cases.Count;

    public string Name(int test) => cases[test].DisplayName;

    /// <summary>Runs tests until the first fails; late where they don't end in time.</summary>
    public (string? Failed, bool IsLate) Run(IEnumerable<int> tests, double seconds)
    {
        var sink = new Sink();
        var those = tests.Select(t => cases[t]).ToList();
        // On a thread of its own: a test that never ends must not keep the clock from being read.
        new Thread(() => executor.RunTests(those, sink, new Options()), 16 << 20)
        {
            IsBackground = true,
        }.Start();
        return sink.Done.Wait(TimeSpan.FromSeconds(seconds)) ? (sink.Failed, false) : (null, true);
    }

    private sealed class Sink : IMessageSink
    {
        public List<ITestCase> Cases { get; } = [];

        public string? Failed { get; private set; }

        public ManualResetEventSlim Done { get; } = new();

        public bool OnMessage(IMessageSinkMessage message)
        {
            switch (message)
            {
                case ITestCaseDiscoveryMessage discovered:
                    Cases.Add(discovered.TestCase);
                    break;
                case ITestFailed failed:
                    Failed ??= failed.Test.DisplayName.Split('(')[0];
                    break;
                case IDiscoveryCompleteMessage or ITestAssemblyFinished:
                    Done.Set();
                    break;
            }

            return Failed is null;
        }
    }

    // One test after the other: the active mutant is one for the process.
    private sealed class Options : ITestFrameworkDiscoveryOptions, ITestFrameworkExecutionOptions
    {
        private readonly Dictionary<string, object?> values = new()
        {
            ["xunit.execution.DisableParallelization"] = true,
            ["xunit.execution.SynchronousMessageReporting"] = true,
            ["xunit.execution.MaxParallelThreads"] = 1,
            ["xunit.discovery.SynchronousMessageReporting"] = true,
            ["xunit.discovery.PreEnumerateTheories"] = true,
        };

        public TValue GetValue<TValue>(string name) =>
            values.GetValueOrDefault(name) is TValue value ? value : default!;

        public void SetValue<TValue>(string name, TValue value) => values[name] = value;
    }
}
