using System.Text;
using System.Text.RegularExpressions;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tests;
using Xunit;

namespace DeckLife.Notebooks.Tests;

[Collection(KernelRuns.Name)]
public class ReportNotebookTests
{
    private static readonly Dictionary<string, string> None = [];

    public static TheoryData<string> Shipped() =>
        [
            .. Directory
                .GetFiles(Path.Combine(AppContext.BaseDirectory, "notebooks"), "*.ipynb")
                .Select(f => Path.GetFileName(f))
                .Order(StringComparer.Ordinal),
        ];

    [Theory]
    [MemberData(nameof(Shipped))]
    public void Shipped_Notebook_IsClearedAndInTheLibrarysOwnLayout(string name)
    {
        var path = Path.Combine(AppContext.BaseDirectory, "notebooks", name);
        var notebook = NotebookDocument.Load(path);

        Assert.Equal(Encoding.UTF8.GetString(notebook.Cleared().ToBytes()), File.ReadAllText(path));
        Assert.Single(notebook.Cells, c => c.Tags.Contains(NotebookRunner.ParametersTag));
        // No logic in a notebook: no branch, no loop, no method of its own.
        Assert.All(
            notebook.Cells.Where(c => c.IsCode),
            c =>
                Assert.DoesNotMatch(
                    @"\b(if|for|foreach|while|switch)\s*\(|\b(class|static)\b",
                    c.Source
                )
        );
        Assert.Contains(
            notebook.Cells,
            c => c.Source.Contains("## What this does not tell you", StringComparison.Ordinal)
        );
        Assert.Contains(
            notebook.Cells,
            c => c.Source.Contains("## Provenance", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task Render_ReportOnAnInventedProjection_CompletePage()
    {
        var run = await Run("InventedProjection.Make()");
        var page = NotebookPage.Render(run, "Report", UnitSystem.Si);
        await File.WriteAllTextAsync(Path.Combine(AppContext.BaseDirectory, "report.html"), page);

        Assert.Null(run.Failure);
        // One chart a core (9), 3 conditions, lives, cost, 2 estimates, cover, the deck in plan, where corrosion and damage are probable (2).
        Assert.Equal(20, Regex.Count(page, "<figure class=\"dl-chart\">"));
        // Links into the page find their targets.
        foreach (Match link in Regex.Matches(page, "href=\"#([^\"]+)\""))
        {
            Assert.Contains($"id=\"{link.Groups[1].Value}\"", page, StringComparison.Ordinal);
        }

        Assert.True(page.Length < 6_000_000);
        Assert.DoesNotContain("class=\"incomplete\"", page, StringComparison.Ordinal);
        Assert.Equal(1, Regex.Count(page, "plotly\\.js v2"));
        // Same input, same bytes.
        var again = await Run("InventedProjection.Make()");
        Assert.Equal(run.Document.ToBytes(), again.Document.ToBytes());
        Assert.Equal(page, NotebookPage.Render(again, "Report", UnitSystem.Si));
    }

    [Fact]
    public async Task Run_PublishedChecks_EveryOneHolds()
    {
        var notebook = NotebookFiles.Load("05-published-checks.ipynb");
        var run = await new NotebookRunner().RunAsync(notebook, None);

        Assert.Null(run.Failure);
        Assert.Equal(
            5,
            run.Document.Cells.Count(c =>
                c.Outputs.Any(o =>
                    (o["text/html"] ?? "").Contains(
                        "<figure class=\"dl-chart\">",
                        StringComparison.Ordinal
                    )
                )
            )
        );
        // Another time than the references hold for: the notebook refuses, it does not draw on.
        var wrong = await new NotebookRunner().RunAsync(
            notebook,
            new Dictionary<string, string> { ["years"] = "21" }
        );
        Assert.Equal(3, wrong.ExitCode);
        Assert.Contains(
            "the reference is 3.886866964154",
            wrong.Failure!.Message,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Render_FailedRun_KeepsWhatWasComputedUnderABanner()
    {
        var run = await Run("InventedProjection.Make(); throw new Exception(\"no <b>\")");
        var page = NotebookPage.Render(run, "Report", UnitSystem.Si);

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("class=\"incomplete\"", page, StringComparison.Ordinal);
        Assert.Contains(
            "cell 7 (In [6]) failed: System.Exception: no &lt;b&gt;",
            page,
            StringComparison.Ordinal
        );
    }

    private static Task<NotebookRun> Run(string projection)
    {
        var notebook = NotebookFiles.Load(NotebookFiles.DeckReport).Cleared();
        foreach (
            var (call, source) in new[]
            {
                ("DeckFolder.Read", ""),
                ("ProfileFitter.Fit", ""),
                ("DeckFitter.Fit", ""),
                ("report.Explorer", ""),
                (
                    "DeckProjector.Project",
                    $"var projection = {projection};\nvar report = new DeckReport(projection);"
                ),
            }
        )
        {
            notebook
                .Cells.Single(c => c.IsCode && c.Source.Contains(call, StringComparison.Ordinal))
                .SetSource(source);
        }

        var setup = notebook.Cells.Single(c => c.Tags.Contains(NotebookRunner.SetupTag));
        setup.SetSource("using DeckLife.Reporting.Tests;\n" + setup.Source);
        return new NotebookRunner(
            new() { References = [typeof(InventedProjection).Assembly] }
        ).RunAsync(notebook, None);
    }
}
