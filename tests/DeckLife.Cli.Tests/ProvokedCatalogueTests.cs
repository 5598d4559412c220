using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using DeckLife.Diagnostics;
using Xunit;

namespace DeckLife.Cli.Tests;

/// <summary>Every message of the catalogue is provoked by some test: by an input that leads to it.</summary>
public partial class ProvokedCatalogueTests
{
    // These write codes without provoking them: messages of an invented result, texts in other units, a count of flags.
    private static readonly string[] NotProvoking =
    [
        "InventedProjection.cs",
        "MessageTemplateTests.cs",
        "ChainCalibration.cs",
        "ProvokedCatalogueTests.cs",
    ];

    public static TheoryData<string> Codes => [.. DiagnosticCatalogue.All.Select(e => e.Code)];

    [Theory]
    [MemberData(nameof(Codes))]
    public void Message_OfTheCatalogue_IsProvokedByATest(string code) =>
        Assert.True(
            Provoked.Value.Contains(code),
            $"no test provokes {code} ({DiagnosticCatalogue.Find(code)!.Title}): add an input that leads to it"
        );

    [Fact]
    public void Texts_OfTheCatalogue_AreWholeAndEndInAStop()
    {
        Assert.All(
            DiagnosticCatalogue.All,
            e =>
            {
                Assert.Matches(@"^DL\d{4}$", e.Code);
                Assert.True(e.Title.Length > 0 && char.IsUpper(e.Title[0]), e.Code);
                // A message of one value only is a whole sentence of its own.
                Assert.Matches(@"[.?}]$", e.Format);
                Assert.Matches(@"[.?]$", e.Explanation);
                Assert.DoesNotContain("  ", e.Format + e.Explanation, StringComparison.Ordinal);
            }
        );
        Assert.Equal(
            DiagnosticCatalogue.All.Length,
            DiagnosticCatalogue.All.Select(e => e.Code).Distinct().Count()
        );
    }

    private static readonly Lazy<HashSet<string>> Provoked = new(() =>
        Directory
            .EnumerateFiles(Tests(), "*", SearchOption.AllDirectories)
            .Where(f =>
                (
                    f.EndsWith("Tests.cs", StringComparison.Ordinal)
                    || f.EndsWith(".approved.txt", StringComparison.Ordinal)
                ) && !NotProvoking.Contains(Path.GetFileName(f))
            )
            // What must not occur is no provocation.
            .Select(f => Absent().Replace(File.ReadAllText(f), ""))
            .SelectMany(text => Code().Matches(text))
            .Select(m => m.Value)
            .ToHashSet(StringComparer.Ordinal)
    );

    private static string Tests([CallerFilePath] string path = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(path)!, ".."));

    [GeneratedRegex(@"DL\d{4}\b")]
    private static partial Regex Code();

    [GeneratedRegex(@"DoesNotContain\(.*?\);", RegexOptions.Singleline)]
    private static partial Regex Absent();
}
