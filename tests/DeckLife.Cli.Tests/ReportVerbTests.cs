using System.Globalization;
using System.Text;
using Xunit;

namespace DeckLife.Cli.Tests;

public sealed class ReportVerbTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("decklife-report-");

    private string Deck => Path.Combine(folder.FullName, "deck");

    private string Out => Path.Combine(folder.FullName, "out");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public void Report_SmallDeck_WritesThePageAndTheNotebookOnceAndTheSameAgain()
    {
        WriteDeck();

        var (code, output, error) = Run(Deck, "--out", Out, "--no-timestamp");

        Assert.True(code == ExitCodes.Done, error);
        Assert.Equal(
            ["deck-report.ipynb", "report.html"],
            new DirectoryInfo(Out).GetFiles().Select(f => f.Name).Order(StringComparer.Ordinal)
        );
        Assert.Contains("report.html", output, StringComparison.Ordinal);
        var page = File.ReadAllText(Path.Combine(Out, "report.html"));
        Assert.Matches("Made by DeckLife [^,.]*[0-9.]+\\. A planning aid", page);
        // A core's name that would run as a script stands as text, in the page and in its charts.
        Assert.Contains("&lt;script&gt;alert(1)&lt;/script&gt;", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>alert", page, StringComparison.OrdinalIgnoreCase);
        Assert.True(new FileInfo(Path.Combine(Out, "report.html")).Length < 6_000_000);
        // The deck's name holds markup: it stands on the page as text.
        Assert.Contains("Invented &lt;i&gt;deck&lt;/i&gt;", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Invented <i>", page, StringComparison.Ordinal);
        Assert.Contains("refused", page, StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"incomplete\"", page, StringComparison.Ordinal);

        // Nothing is overwritten unasked; asked, the same input gives the same bytes.
        Assert.Equal(ExitCodes.UnusableInput, Run(Deck, "--out", Out).Code);
        Assert.Equal(ExitCodes.Done, Run(Deck, "--out", Out, "--force", "--no-timestamp").Code);
        Assert.Equal(page, File.ReadAllText(Path.Combine(Out, "report.html")));
    }

    [Fact]
    public void Report_CellThatFails_ExitCode3AndTheRestUnderABannerThatNamesTheCell()
    {
        WriteDeck();
        // No core falls with depth: every one is refused, and there is nothing to project from.
        var table = Path.Combine(Deck, "chlorides.csv");
        var rows = File.ReadAllLines(table);
        File.WriteAllLines(
            table,
            rows.Take(1).Concat(rows.Where(r => r.StartsWith("E,", StringComparison.Ordinal)))
        );
        var around = Path.Combine(folder.FullName, "never-made", "..", "out");

        var (code, output, error) = Run(Deck, "--out", around);

        Assert.True(code == ExitCodes.NotCompleted, error);
        Assert.Matches(@"DL5002 error: deck-report\.ipynb: cell \d+ \(In \[\d+\]\) failed", error);
        Assert.Contains("report.html", output, StringComparison.Ordinal);
        // ".." in --out goes where it says, and makes nothing on its way.
        Assert.False(Directory.Exists(Path.Combine(folder.FullName, "never-made")));
        var page = File.ReadAllText(Path.Combine(Out, "report.html"));
        Assert.Contains("class=\"incomplete\" role=\"alert\"", page, StringComparison.Ordinal);
        Assert.Matches(@"This report is not complete: cell \d+", page);
        // Without --no-timestamp the foot says when it was made.
        Assert.Matches(@"Made by DeckLife [0-9.]+, \d{4}-\d\d-\d\d \d\d:\d\d UTC\.", page);
    }

    [Fact]
    public void Report_UnusableDeck_ListsProblemsAndWritesNothing()
    {
        WriteDeck();
        var table = Path.Combine(Deck, "chlorides.csv");
        File.WriteAllText(
            table,
            File.ReadAllText(table).Replace("A,0,0.5,9.1", "A,0.5,0,nine", StringComparison.Ordinal)
        );

        var (code, output, error) = Run(Deck, "--out", Out, "--format", "json");

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.StartsWith("{", output, StringComparison.Ordinal);
        Assert.Contains("\"problems\"", output, StringComparison.Ordinal);
        Assert.Contains("nine", error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out));
    }

    [Theory]
    [InlineData("--units", "metric")]
    [InlineData("--format", "xml")]
    public void Report_UnknownChoice_SaysWhichThereAre(string option, string value)
    {
        WriteDeck();
        var (code, _, error) = Run(Deck, "--out", Out, option, value);

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Contains("DL5007", error, StringComparison.Ordinal);
        Assert.Contains("the choices are", error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out));
    }

    [Fact]
    public void Report_TwoFoldersOfOneName_IsRefused()
    {
        WriteDeck();
        var (code, _, error) = Run(Deck, Path.Combine(folder.FullName, "x", "deck"), "--out", Out);

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Contains("DL5006", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Report_SeveralDecksOneOfThemBroken_TheOthersAreMadeAndTheListSaysWhy()
    {
        WriteDeck();
        var second = Path.Combine(folder.FullName, "se'cond & deck");
        var broken = Path.Combine(folder.FullName, "broken");
        foreach (var copy in new[] { second, broken })
        {
            Directory.CreateDirectory(copy);
            foreach (var file in Directory.GetFiles(Deck))
            {
                File.Copy(file, Path.Combine(copy, Path.GetFileName(file)));
            }
        }

        var table = Path.Combine(broken, "chlorides.csv");
        File.WriteAllText(
            table,
            File.ReadAllText(table).Replace("A,0,0.5,9.1", "A,0.5,0,nine", StringComparison.Ordinal)
        );
        // The name would leave the output folder if it were taken as it stands.
        var around = Path.Combine(second, "..", "deck");

        var (code, output, error) = Run(around, broken, second, "--out", Out, "--format", "json");

        Assert.True(code == ExitCodes.UnusableInput, error);
        Assert.Equal(
            [
                "deck/deck-report.ipynb",
                "deck/report.html",
                "index.html",
                "se'cond & deck/deck-report.ipynb",
                "se'cond & deck/report.html",
            ],
            Directory
                .GetFiles(Out, "*", SearchOption.AllDirectories)
                .Select(f => Path.GetRelativePath(Out, f).Replace('\\', '/'))
                .Order(StringComparer.Ordinal)
        );
        var index = File.ReadAllText(Path.Combine(Out, "index.html"));
        Assert.Contains("2 of 3 reports are complete", index, StringComparison.Ordinal);
        Assert.Contains("href=\"./deck/report.html\"", index, StringComparison.Ordinal);
        Assert.Contains(
            "href=\"./se%27cond%20%26%20deck/report.html\"",
            index,
            StringComparison.Ordinal
        );
        Assert.Contains("nine", index, StringComparison.Ordinal);
        Assert.Contains("not made", index, StringComparison.Ordinal);
        Assert.Contains("planning aid", index, StringComparison.Ordinal);
        Assert.True(index.Length < 60_000);
        using var json = System.Text.Json.JsonDocument.Parse(output);
        Assert.Equal(
            ["complete", "not made", "complete"],
            json.RootElement.GetProperty("reports")
                .EnumerateArray()
                .Select(r => r.GetProperty("status").GetString()!)
        );
        Assert.EndsWith(
            "index.html",
            json.RootElement.GetProperty("index").GetString(),
            StringComparison.Ordinal
        );
        Assert.Contains("nine", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Report_PartsLeftByAnEndedRun_AreNotTakenForAReportAndGiveWay()
    {
        WriteDeck();
        Directory.CreateDirectory(Out);
        foreach (var part in new[] { "report.html.part", "deck-report.ipynb.part" })
        {
            File.WriteAllText(Path.Combine(Out, part), "half a page");
        }

        var (code, _, error) = Run(Deck, "--out", Out);

        Assert.True(code == ExitCodes.Done, error);
        Assert.Equal(
            ["deck-report.ipynb", "report.html"],
            new DirectoryInfo(Out).GetFiles().Select(f => f.Name).Order(StringComparer.Ordinal)
        );
        Assert.DoesNotContain(
            "half a page",
            File.ReadAllText(Path.Combine(Out, "report.html")),
            StringComparison.Ordinal
        );
    }

    private static (int Code, string Output, string Error) Run(params string[] arguments)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = CommandShell.Run(["report", .. arguments], output, error);
        return (code, output.ToString(), error.ToString());
    }

    private void WriteDeck()
    {
        Directory.CreateDirectory(Deck);
        File.WriteAllText(
            Path.Combine(Deck, "deck.json"),
            """
            {
              "name": "Invented <i>deck</i>",
              "surveyDate": "2031-05-14",
              "firstSalt": { "age": "30 yr" },
              "area": "500 m2",
              "deckThickness": "8 in",
              "structure": "cast-in-place",
              "topBars": { "type": "bare", "diameter": "0.625 in" },
              "chlorides": { "extraction": "acid-soluble" },
              "threshold": {
                "content": { "mean": "2.4 lb/yd3", "cov": 0.3, "distribution": "lognormal" },
                "withinDeckShare": 0.5, "extraction": "acid-soluble", "source": "invented for a test"
              },
              "propagation": { "period": { "mean": "6 yr", "cov": 0.3 }, "source": "invented for a test" },
              "materials": [ {
                "name": "overlay",
                "diffusion": { "coefficient": { "mean": "20 mm2/yr", "cov": 0.3 }, "ageingExponent": 0, "referenceAge": "28 d", "ageAtExposure": "28 d" },
                "initialChloride": "0.1 lb/yd3",
                "source": "invented for a test"
              } ],
              "strategies": [
                { "name": "do nothing" },
                { "name": "overlay", "interventions": [ { "at": "1 yr", "remove": { "rule": "fixed-depth", "depth": "0.5 in" }, "overlay": { "material": "overlay", "thickness": "2 in" } } ] }
              ],
              "horizon": "40 yr",
              "discountRate": "3 %",
              "damageLimit": "10 %",
              "analysis": { "seed": 1, "draws": 100, "points": 32 }
            }
            """
        );
        var rows = new StringBuilder("core,top_in,bottom_in,chloride_lb_per_yd3\n");
        string[] contents =
        [
            "A 9.1 6.0 3.4 1.8 0.9 0.4",
            "B 8.2 5.1 2.9 1.3 0.7 0.3",
            "C 10.4 7.2 4.6 2.4 1.3 0.6",
            "<script>alert(1)</script> 7.7 5.6 3.1 1.9 0.8 0.5",
            "E 1.0 1.1 1.2 1.3 1.4 1.5",
        ];
        foreach (var core in contents.Select(c => c.Split(' ')))
        {
            for (var i = 0; i < 6; i++)
            {
                rows.Append(
                    CultureInfo.InvariantCulture,
                    $"{core[0]},{0.5 * i},{0.5 * (i + 1)},{core[i + 1]}\n"
                );
            }
        }

        File.WriteAllText(Path.Combine(Deck, "chlorides.csv"), rows.ToString());
        var covers = new StringBuilder("x_ft,y_ft,cover_in\n");
        for (var i = 0; i < 40; i++)
        {
            covers.Append(
                CultureInfo.InvariantCulture,
                $"{i},{i % 5},{Math.Round(2 + (0.4 * Math.Sin(i)), 2)}\n"
            );
        }

        File.WriteAllText(Path.Combine(Deck, "cover.csv"), covers.ToString());
    }
}
