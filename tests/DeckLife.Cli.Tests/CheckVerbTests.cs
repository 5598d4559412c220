using System.Runtime.CompilerServices;
using System.Text.Json;
using Xunit;

namespace DeckLife.Cli.Tests;

public class CheckVerbTests
{
    private static string Inputs([CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "..", "DeckLife.Data.Tests", "Inputs");

    private static (int Code, string Output, string Error) Run(params string[] args)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var code = CommandShell.Run(args, output, error);
        return (code, output.ToString(), error.ToString());
    }

    // The whole output as a newcomer sees it. After a change that is meant: DECKLIFE_APPROVE=1 writes it anew; read it.
    [Fact]
    public void Check_BrokenDeck_WholeOutputAsApproved()
    {
        var approved = Path.Combine(Inputs(), "broken-deck.approved.txt");
        var (code, output, error) = Run("check", Path.Combine(Inputs(), "broken-deck"));
        if (Environment.GetEnvironmentVariable("DECKLIFE_APPROVE") == "1")
        {
            File.WriteAllText(approved, output);
        }

        Assert.Equal(ExitCodes.ProblemsFound, code);
        Assert.Empty(error);
        Assert.Equal(File.ReadAllText(approved).ReplaceLineEndings("\n"), output);
    }

    [Fact]
    public void Check_BrokenDeckAsJson_SameProblemsInTheirFields()
    {
        var folder = Path.Combine(Inputs(), "broken-deck");
        var (code, output, _) = Run("check", folder, "--format", "json");
        var (_, text, _) = Run("check", folder);

        Assert.Equal(ExitCodes.ProblemsFound, code);
        using var json = JsonDocument.Parse(output);
        var problems = json.RootElement.GetProperty("problems").EnumerateArray().ToList();
        Assert.Equal(
            problems.Count,
            text.Split('\n').Count(l => l.StartsWith("  ", StringComparison.Ordinal))
        );
        var date = problems.Single(p =>
            p.GetProperty("file").GetString() == "chlorides.csv"
            && p.TryGetProperty("value", out var v)
            && v.GetString() == "2-Jan"
        );
        Assert.Equal(
            ("DL1019", 4, "top_in", "error"),
            (
                date.GetProperty("code").GetString(),
                date.GetProperty("row").GetInt32(),
                date.GetProperty("column").GetString(),
                date.GetProperty("severity").GetString()
            )
        );
    }

    [Fact]
    public void Check_MinimalDeck_Exit0AndSaysWhatIsThere()
    {
        var (code, output, error) = Run("check", Path.Combine(Inputs(), "minimal-deck"));

        Assert.Equal((ExitCodes.Done, ""), (code, error));
        Assert.Contains(
            "3 cores, 20 cover readings, 20 half-cell nodes, 3 sounded areas. No errors, no warnings.",
            output,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Check_NoFolder_Exit2AndNothingOnOutputButTheJson()
    {
        var (code, output, error) = Run("check", "no-such-folder");
        Assert.Equal((ExitCodes.UnusableInput, ""), (code, output));
        Assert.Contains("no-such-folder", error, StringComparison.Ordinal);

        (code, output, _) = Run("check", "no-such-folder", "--format", "json");
        Assert.Equal(ExitCodes.UnusableInput, code);
        using var json = JsonDocument.Parse(output);
        Assert.Equal(
            "DL1001",
            json.RootElement.GetProperty("problems")[0].GetProperty("code").GetString()
        );
    }

    [Fact]
    public void Explain_EveryCode_HasALongText()
    {
        var (code, list, _) = Run("explain");
        Assert.Equal(ExitCodes.Done, code);
        foreach (
            var entry in list.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => l[..6])
        )
        {
            var (found, text, _) = Run("explain", entry);
            Assert.Equal(ExitCodes.Done, found);
            Assert.True(text.Split('\n')[2].Length > 20, entry);
        }

        Assert.Equal(ExitCodes.UnusableInput, Run("explain", "DL0000").Code);
    }

    [Fact]
    public void Schema_OfADeck_IsJsonThatClosesEveryObject()
    {
        var (code, output, _) = Run("schema");

        Assert.Equal(ExitCodes.Done, code);
        using var json = JsonDocument.Parse(output);
        AssertClosed(json.RootElement);
    }

    private static void AssertClosed(JsonElement element)
    {
        if (element.ValueKind == JsonValueKind.Array)
        {
            foreach (var item in element.EnumerateArray())
            {
                AssertClosed(item);
            }
        }
        else if (element.ValueKind == JsonValueKind.Object)
        {
            if (
                element.TryGetProperty("properties", out _)
                && element.TryGetProperty("type", out var type)
                && type.ValueKind == JsonValueKind.String
            )
            {
                Assert.Equal(
                    JsonValueKind.False,
                    element.GetProperty("additionalProperties").ValueKind
                );
            }

            foreach (var member in element.EnumerateObject())
            {
                AssertClosed(member.Value);
            }
        }
    }
}
