using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Xunit;

namespace DeckLife.Tests;

/// <summary>What the notes of the sources point at is there.</summary>
public partial class SourceNoteTests
{
    [Fact]
    public void Notes_TestsAndReferenceCasesNamed_Exist()
    {
        var root = Root();
        var classes = Sources(root, "tests")
            .Concat(Sources(root, "reference-checks"))
            .SelectMany(file => ClassName().Matches(File.ReadAllText(file)))
            .Select(m => m.Groups[1].Value)
            .ToHashSet();
        var cases = CaseHeading()
            .Matches(File.ReadAllText(Path.Combine(root, "reference-checks", "RESULTS.md")))
            .Select(m => m.Groups[1].Value)
            .ToArray();
        var groups = cases.Select(c => c.Split('/')[0]).ToHashSet();
        var named = 0;
        var missing = new List<string>();
        foreach (var file in Sources(root, "src"))
        {
            foreach (
                var line in File.ReadLines(file)
                    .Where(l => l.TrimStart().StartsWith("//", StringComparison.Ordinal))
            )
            {
                foreach (Match test in TestName().Matches(line))
                {
                    named++;
                    Note(classes.Contains(test.Value), test.Value);
                }

                foreach (Match other in CaseName().Matches(line))
                {
                    var start = other.Groups[1].Value;
                    if (!groups.Contains(start.Split('/')[0]))
                    {
                        continue;
                    }

                    named++;
                    Note(
                        other.Groups[2].Length > 0
                            ? cases.Any(c => c.StartsWith(start, StringComparison.Ordinal))
                            : cases.Contains(start),
                        other.Value
                    );
                }
            }

            void Note(bool found, string name)
            {
                if (!found)
                {
                    missing.Add($"{Path.GetFileName(file)}: {name}");
                }
            }
        }

        Assert.Empty(missing);
        // Were a pattern to find nothing the test would say nothing.
        Assert.True(named > 100, $"{named} names found");
        Assert.NotEmpty(cases);
    }

    [GeneratedRegex(@"\bclass (\w+)")]
    private static partial Regex ClassName();

    [GeneratedRegex(@"^### (\S+):", RegexOptions.Multiline)]
    private static partial Regex CaseHeading();

    [GeneratedRegex(@"\b[A-Z]\w*(Tests|Cases)\b")]
    private static partial Regex TestName();

    // A group of the reference checks, then a case or the start of several.
    [GeneratedRegex(@"(?<![\w/.-])([a-z-]+/[a-z0-9-]*)(\*?)")]
    private static partial Regex CaseName();

    private static IEnumerable<string> Sources(string root, string folder) =>
        Directory
            .EnumerateFiles(Path.Combine(root, folder), "*.cs", SearchOption.AllDirectories)
            .Where(f =>
                !f.Contains(
                    $"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}",
                    StringComparison.Ordinal
                )
            );

    private static string Root([CallerFilePath] string path = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(path)!, "..", ".."));
}
