using System.Runtime.CompilerServices;
using System.Text.Json;
using Xunit;

namespace DeckLife.Cli.Tests;

public class NetworkVerbTests
{
    [Fact]
    public void Run_TwoShardsMerged_PrintsWhatOneRunPrints()
    {
        using var place = new Place();
        FewDecks(place.In("network"));
        string[] sampling = ["--draws", "20", "--points", "16", "--quiet", "--format", "json"];

        var (code, alone, _) = Run(["network", place.In("network"), .. sampling]);
        Assert.Equal(ExitCodes.Done, code);
        for (var k = 2; k >= 1; k--)
        {
            (code, var none, _) = Run([
                "network",
                place.In("network"),
                .. sampling,
                "--shard",
                FormattableString.Invariant($"{k}/2"),
                "--out",
                place.In("out"),
            ]);
            Assert.Equal(ExitCodes.Done, code);
            Assert.Empty(none);
        }

        (code, var merged, _) = Run([
            "network",
            "merge",
            place.In("network"),
            place.In("out"),
            .. sampling,
            "--out",
            place.In("whole"),
            "--page",
        ]);

        Assert.Equal(ExitCodes.Done, code);
        Assert.Equal(alone, merged);
        Assert.Equal(alone, File.ReadAllText(place.In("whole/program.json")));
        using var json = JsonDocument.Parse(merged);
        var decks = json.RootElement.GetProperty("decks");
        Assert.Equal(4, decks.GetArrayLength());
        var broken = Assert.Single(
            decks.EnumerateArray(),
            d => d.GetProperty("status").GetString() == "failed"
        );
        Assert.Equal("d00017", broken.GetProperty("folder").GetString());
        Assert.Contains("unit is missing", broken.GetProperty("reason").GetString());
        foreach (var plan in json.RootElement.GetProperty("programs").EnumerateArray())
        {
            foreach (var year in plan.GetProperty("years").EnumerateArray())
            {
                Assert.True(
                    year.GetProperty("spent").GetInt64() <= year.GetProperty("budget").GetInt64()
                );
            }
        }

        var page = File.ReadAllText(place.In("whole/network.html"));
        Assert.Contains("dl-sortable", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http://", page.Split("<body>")[1], StringComparison.Ordinal);
        // Names that would run as a script stand as text, in tables and in charts.
        Assert.Contains("&lt;img src=x onerror=alert(1)&gt;", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<img", page, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Schema_OfNetworks_IsJsonThatNamesItsKeys()
    {
        var (code, output, _) = Run(["schema", "network"]);

        Assert.Equal(ExitCodes.Done, code);
        using var json = JsonDocument.Parse(output);
        var keys = json.RootElement.GetProperty("properties");
        Assert.True(keys.TryGetProperty("program", out _));
        Assert.True(
            keys.GetProperty("common").GetProperty("properties").TryGetProperty("threshold", out _)
        );
        Assert.False(keys.GetProperty("common").TryGetProperty("required", out _));
    }

    [Theory]
    [InlineData("--shard", "3/2")]
    [InlineData("--shard", "0/2")]
    [InlineData("--draws", "3")]
    [InlineData("--resume")]
    [InlineData("--page")]
    public void Run_ArgumentsThatCantBe_AreRefusedBeforeAnythingIsDone(params string[] arguments)
    {
        var (code, output, error) = Run(["network", "nowhere", .. arguments]);

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Empty(output);
        Assert.NotEmpty(error);
    }

    [Fact]
    public void Run_FolderThatIsNotThere_ListsTheProblemAsJson()
    {
        var (code, output, _) = Run(["network", "nowhere", "--format", "json"]);

        Assert.Equal(ExitCodes.UnusableInput, code);
        using var json = JsonDocument.Parse(output);
        Assert.Equal(1, json.RootElement.GetProperty("problems").GetArrayLength());
    }

    [Fact]
    public void Run_FolderOfResultsThatHoldsSomething_IsLeftAlone()
    {
        using var place = new Place();
        FewDecks(place.In("network"));
        Directory.CreateDirectory(place.In("out"));
        File.WriteAllText(place.In("out/mine.txt"), "mine");

        var (code, _, error) = Run(["network", place.In("network"), "--out", place.In("out")]);

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Contains("--resume", error, StringComparison.Ordinal);
        Assert.Single(Directory.EnumerateFileSystemEntries(place.In("out")));
    }

    private static (int Code, string Output, string Error) Run(string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = CommandShell.Run(args, output, error);
        return (code, output.ToString(), error.ToString());
    }

    // A few decks of the demonstration network: without cores, which need no chains, and a broken one.
    private static void FewDecks(string target)
    {
        string[] kept = ["d00001", "d00004", "d00017", "d00034"];
        var demo = Demo();
        const string markup = "</script><img src=x onerror=alert(1)> &amp; 'A1'";
        var lines = File.ReadAllLines(Path.Combine(demo, "network.json"))
            .Select(l =>
                l.Replace(
                    "\"Harrowmere district\"",
                    $"\"Harrowmere {markup}\"",
                    StringComparison.Ordinal
                )
            )
            .Where(l =>
                !l.Contains("\"folder\"", StringComparison.Ordinal)
                || kept.Contains(l.Split('"')[3])
            )
            .Select(l =>
                l.Contains(kept[^1], StringComparison.Ordinal)
                    ? l.TrimEnd(',')
                    : l.Replace("\"years\": 10", "\"years\": 2", StringComparison.Ordinal)
            );
        Directory.CreateDirectory(target);
        File.WriteAllLines(Path.Combine(target, "network.json"), lines);
        foreach (var folder in kept)
        {
            Directory.CreateDirectory(Path.Combine(target, folder));
            foreach (var file in Directory.EnumerateFiles(Path.Combine(demo, folder)))
            {
                File.WriteAllText(
                    Path.Combine(target, folder, Path.GetFileName(file)),
                    File.ReadAllText(file)
                        .Replace("\"name\": \"", $"\"name\": \"{markup} ", StringComparison.Ordinal)
                );
            }
        }
    }

    private static string Demo([CallerFilePath] string path = "") =>
        Path.GetFullPath(
            Path.Combine(
                Path.GetDirectoryName(path)!,
                "..",
                "..",
                "demo-data",
                "harrowmere-district"
            )
        );

    private sealed class Place : IDisposable
    {
        private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory(
            "decklife-network-verb-"
        );

        public string In(string name) => Path.Combine(folder.FullName, name);

        public void Dispose() => folder.Delete(recursive: true);
    }
}
