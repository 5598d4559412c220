using System.CommandLine.Parsing;
using System.Runtime.CompilerServices;
using Xunit;

namespace DeckLife.Cli.Tests;

/// <summary>The examples at the end of each verb's help.</summary>
public sealed class HelpExampleTests : IDisposable
{
    // A report, a projection of the demonstration deck and a network take up to minutes: their examples are only parsed here, and the
    // files that they name are looked for, but for the projection with the fewest draws. Each of these verbs is run whole, on smaller
    // input, by tests of its own.
    private static readonly string[] Costly = ["report", "project", "network"];
    private const string FewestDraws = "--draws 20 --points 16";

    private readonly DirectoryInfo work = Directory.CreateTempSubdirectory("decklife-examples-");

    public void Dispose() => work.Delete(recursive: true);

    public static TheoryData<string> Verbs() => [.. All()];

    [Theory]
    [MemberData(nameof(Verbs))]
    public void Help_OfEachVerb_HasExamplesThatParseAndNameWhatIsThere(string verb)
    {
        var examples = Examples(verb);

        Assert.NotEmpty(examples);
        Assert.All(
            examples,
            e =>
            {
                var words = CommandLineParser.SplitCommandLine(e).ToArray();
                Assert.StartsWith("decklife " + verb, e, StringComparison.Ordinal);
                Assert.Empty(
                    CommandShell
                        .Root(TextWriter.Null, TextWriter.Null)
                        .Parse([.. words.Skip(1)])
                        .Errors
                );
                Assert.All(
                    words.Where(IsOurs),
                    w => Assert.True(Path.Exists(Placed(w)), w + " is not there")
                );
            }
        );
    }

    [Fact]
    public void Examples_OfVerbsThatTakeSeconds_RunToTheirEnd()
    {
        var run = new HashSet<string>();
        // In the order of the help: what the examples of study leave, those of its merge take up.
        foreach (var verb in All())
        {
            var isCostly = Costly.Contains(verb.Split(' ')[0]);
            foreach (
                var example in Examples(verb)
                    .Where(e => !isCostly || e.EndsWith(FewestDraws, StringComparison.Ordinal))
            )
            {
                run.Add(verb);
                using var output = new StringWriter();
                using var error = new StringWriter();
                var code = CommandShell.Run(
                    [.. CommandLineParser.SplitCommandLine(example).Skip(1).Select(Placed)],
                    output,
                    error
                );
                Assert.True(code == ExitCodes.Done, $"{example}: {code} {error}");
                Assert.True(
                    output.ToString().Length > 0
                        || example.Contains("--shard", StringComparison.Ordinal),
                    example + " prints nothing"
                );
            }
        }

        Assert.Contains("project", run);
    }

    private static IEnumerable<string> All() =>
        CommandShell
            .Root(TextWriter.Null, TextWriter.Null)
            .Subcommands.SelectMany(v =>
                v.Subcommands.Select(s => $"{v.Name} {s.Name}").Prepend(v.Name)
            );

    private static List<string> Examples(string verb)
    {
        using var output = new StringWriter();
        Assert.Equal(
            ExitCodes.Done,
            CommandShell.Run([.. verb.Split(' '), "--help"], output, TextWriter.Null)
        );
        return
        [
            .. output
                .ToString()
                .Split("Examples:")[^1]
                .Split('\n')
                .Select(l => l.Trim())
                .Where(l => l.StartsWith("decklife ", StringComparison.Ordinal)),
        ];
    }

    private static bool IsOurs(string word) =>
        word.StartsWith("demo-data/", StringComparison.Ordinal)
        || word.StartsWith("reference-checks/", StringComparison.Ordinal);

    // What an example reads lies in the repository; what it writes goes to this test's folder.
    private string Placed(string word) =>
        IsOurs(word) ? Path.Combine(Repository(), word)
        : word is "out" or "whole" || word.StartsWith("part-", StringComparison.Ordinal)
            ? Path.Combine(work.FullName, word)
        : word;

    private static string Repository([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
}
