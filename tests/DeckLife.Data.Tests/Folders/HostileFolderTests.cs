using System.Diagnostics;
using DeckLife.Data.Folders;
using DeckLife.Diagnostics;
using Xunit;

namespace DeckLife.Data.Tests.Folders;

/// <summary>Folders with links, odd names and paths that lead elsewhere: read as far as they are a deck, and told where they are not.</summary>
public sealed class HostileFolderTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("decklife-hostile-").FullName;

    public HostileFolderTests()
    {
        foreach (
            var file in Directory.GetFiles(Path.Combine(DeckFolderTests.Inputs, "minimal-deck"))
        )
        {
            File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        }
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData("../cover.csv")]
    [InlineData("/etc/hostname")]
    [InlineData("..\\\\cover.csv")]
    [InlineData("sub/cover.csv")]
    [InlineData("\\u0000cover.csv")]
    public void Read_TableNamedByAPath_RefusedAndNotOpened(string name)
    {
        var file = Path.Combine(folder, "deck.json");
        var text = File.ReadAllText(file);
        var at = text.IndexOf('{', StringComparison.Ordinal) + 1;
        File.WriteAllText(
            file,
            $"{text[..at]} \"cover\": {{ \"file\": \"{name}\" }}, {text[at..]}"
        );

        var result = DeckFolder.Read(folder);

        Assert.Null(result.Deck);
        Assert.Contains(
            result.Problems,
            p => p.Column?.StartsWith("cover", StringComparison.Ordinal) == true
        );
    }

    [Theory]
    [InlineData("\\u001b[31m")]
    [InlineData("\\u202e")]
    [InlineData("\u2067")]
    public void Read_ANameWithCharactersThatCannotBeSeen_RefusedAndNotRepeated(string character)
    {
        var file = Path.Combine(folder, "deck.json");
        File.WriteAllText(
            file,
            File.ReadAllText(file)
                .Replace("\"do nothing\"", $"\"do {character} nothing\"", StringComparison.Ordinal)
        );

        var result = DeckFolder.Read(folder);

        Assert.Null(result.Deck);
        var problem = Assert.Single(result.Problems, p => p.Severity == Severity.Error);
        Assert.Equal("strategies[0].name", problem.Column);
        Assert.DoesNotContain(problem.Text, c => UnseenCharacter.Is(c));
    }

    [Fact]
    public void Read_ACoreNameWithAMarkOfDirection_RefusedAndNotRepeated()
    {
        var file = Path.Combine(folder, "chlorides.csv");
        var rows = File.ReadAllLines(file);
        File.WriteAllLines(file, rows.Select((r, i) => i == rows.Length - 1 ? "\u202E" + r : r));

        var result = DeckFolder.Read(folder);

        Assert.Null(result.Deck);
        var problem = Assert.Single(result.Problems, p => p.Severity == Severity.Error);
        Assert.Equal(("DL1014", rows.Length), (problem.Code, problem.Row));
        Assert.DoesNotContain(problem.Text, c => UnseenCharacter.Is(c));
    }

    [Fact]
    public void Read_ALinkToATable_IsThatTable()
    {
        var elsewhere = Directory.CreateTempSubdirectory("decklife-elsewhere-");
        try
        {
            var table = Path.Combine(folder, "cover.csv");
            var target = Path.Combine(elsewhere.FullName, "covers of the north half.csv");
            File.Move(table, target);
            File.CreateSymbolicLink(table, target);
            var straight = DeckFolder.Read(Path.Combine(DeckFolderTests.Inputs, "minimal-deck"));

            var linked = DeckFolder.Read(folder);

            Assert.Equal(straight.Deck!.Covers.AsEnumerable(), linked.Deck!.Covers);
            Assert.Equal(straight.Deck.Inputs.AsEnumerable(), linked.Deck.Inputs);
        }
        finally
        {
            elsewhere.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData("nowhere.csv", "DL1001")]
    [InlineData("cover.csv", "DL1002")]
    [InlineData("/dev/zero", "DL1003")]
    public void Read_ALinkThatLeadsNowhereInACircleOrToADevice_ListedProblem(
        string target,
        string code
    )
    {
        if (OperatingSystem.IsWindows())
        {
            return; // no devices with names there
        }

        var table = Path.Combine(folder, "cover.csv");
        File.Delete(table);
        File.CreateSymbolicLink(table, target);

        var result = DeckFolder.Read(folder);

        Assert.Null(result.Deck);
        Assert.Contains(result.Problems, p => p.Code == code && p.Severity == Severity.Error);
    }

    // A pipe that nobody writes to would hold the reader for ever.
    [Fact]
    public void Read_APipeNamedLikeATable_ListedProblem()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // no pipes with names in a folder there
        }

        var table = Path.Combine(folder, "cover.csv");
        File.Delete(table);
        using (var made = Process.Start("mkfifo", table))
        {
            made.WaitForExit();
        }

        var result = DeckFolder.Read(folder);

        Assert.Null(result.Deck);
        var problem = Assert.Single(result.Problems, p => p.Code == "DL1002");
        Assert.Contains("cover.csv", problem.Place, StringComparison.Ordinal);
        Assert.Contains("a pipe or a device", problem.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_AFolderNamedLikeATable_IsNotTheTable()
    {
        var table = Path.Combine(folder, "cover.csv");
        File.Delete(table);
        Directory.CreateDirectory(table);

        Assert.Contains(DeckFolder.Read(folder).Problems, p => p.Code == "DL1114");
    }

    [Fact]
    public void Read_OddNamesBesideTheDeck_ToldNotRead()
    {
        string[] names =
        [
            "cover .csv",
            "-rf.csv",
            "a'b\"c;$(d)`e`.csv",
            "\u0631\u0634\u062a\u0647.csv",
            "\ud83d\udca5.csv",
            new string('x', 200) + ".csv",
        ];
        foreach (var name in OperatingSystem.IsWindows() ? names[..1] : names)
        {
            File.WriteAllText(Path.Combine(folder, name), "x_ft,y_ft,cover_in\n1,2,2\n");
        }

        var result = DeckFolder.Read(folder);

        Assert.NotNull(result.Deck);
        Assert.Equal(5, result.Deck.Inputs.Length);
        Assert.All(
            OperatingSystem.IsWindows() ? names[..1] : names,
            n => Assert.Contains(result.Problems, p => p.Code == "DL1113" && p.Value == n)
        );
    }

    [Fact]
    public void Read_APathWithANullCharacter_IsAMissingFolder()
    {
        var read = DeckFolder.Read("no\0where");

        Assert.Null(read.Deck);
        Assert.Equal("DL1001", Assert.Single(read.Problems).Code);
    }

    [Fact]
    public void Read_OneKeyAHundredThousandTimesAndAsManyKeys_ListedProblemsSoon()
    {
        var file = Path.Combine(folder, "deck.json");
        var text = File.ReadAllText(file);
        var at = text.IndexOf('{', StringComparison.Ordinal) + 1;
        var many = string.Concat(
            Enumerable.Range(0, 100_000).Select(i => $"\"k{i}\": 1, \"twice\": 2,\n")
        );
        File.WriteAllText(file, text[..at] + many + text[at..]);
        var before = Environment.CpuUsage.TotalTime;

        var result = DeckFolder.Read(folder);

        Assert.Null(result.Deck);
        Assert.InRange(result.Problems.Length, 2, 1000);
        // Each key is compared with all others only where that takes no time: seconds of processor would be minutes in a larger file.
        Assert.InRange((Environment.CpuUsage.TotalTime - before).TotalSeconds, 0, 30);
    }
}
