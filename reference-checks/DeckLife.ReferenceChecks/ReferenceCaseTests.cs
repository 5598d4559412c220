using Xunit;

namespace DeckLife.ReferenceChecks;

/// <summary>Runs every reference case, and holds RESULTS.md against a fresh run.</summary>
public class ReferenceCaseTests
{
    public static TheoryData<string> Ids => [.. CaseCatalogue.All.Select(c => c.Id)];

    [Fact]
    public void Ids_AreUnique() =>
        Assert.Equal(
            CaseCatalogue.All.Count,
            CaseCatalogue.All.Select(c => c.Id).Distinct().Count()
        );

    [Theory]
    [MemberData(nameof(Ids))]
    public void Case_EveryValue_WithinTolerance(string id)
    {
        var item = CaseCatalogue.All.Single(c => c.Id == id);
        Assert.NotEmpty(item.Values);
        foreach (var value in item.Values)
        {
            var found = value.Found();
            Assert.True(
                item.KnownDisagreement is not null || ResultsFile.IsWithin(value, found),
                FormattableString.Invariant(
                    $"{id}, {value.Name}: found {found:R}, reference {value.Expected:R}, tolerance {value.Tolerance:G3}"
                )
            );
        }
    }

    [Fact]
    public void ResultsFile_OfThisRun_EqualsTheOneCheckedIn()
    {
        var text = ResultsFile.Compose();
        if (Environment.GetEnvironmentVariable("DECKLIFE_WRITE_RESULTS") == "1")
        {
            File.WriteAllText(ResultsFile.Path, text);
        }

        Assert.Equal(File.ReadAllText(ResultsFile.Path).ReplaceLineEndings("\n"), text);
    }
}
