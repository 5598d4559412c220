using DeckLife.Reporting.Tests;
using Xunit;

namespace DeckLife.Notebooks.Tests;

[Collection(KernelRuns.Name)]
public class DomainFormattersTests
{
    [Fact]
    public async Task Cell_EndingWithADomainObject_ShowsItAsPageAndAsText()
    {
        (string Source, string Html, string Text)[] cells =
        [
            ("projection", "dl-headline", "Cautions"),
            ("projection.Cores[0]", "dl-plot", "Core C-01"),
            ("projection.Cores[0].Profile", "not fitted yet", "Core C-01"),
            ("projection.Cores", "dl-gallery", "Core C-09"),
            ("projection.Fit", "Median surface chloride", "Median surface chloride"),
            ("projection.Deck", "Chloride threshold", "140 cover readings"),
            (
                "new DeckLife.Reporting.DeckReport(projection).Strategies()",
                "dl-key",
                "Scarify and overlay"
            ),
        ];
        var run = await new NotebookRunner(
            new() { References = [typeof(InventedProjection).Assembly] }
        ).RunAsync(
            NotebookBuilder.Of([
                ("", "var projection = DeckLife.Reporting.Tests.InventedProjection.Make();"),
                .. cells.Select(c => ("", c.Source)),
                ("", "DeckLife.Quantities.Depth.FromMillimetres(12.5)"),
            ]),
            new Dictionary<string, string>()
        );

        Assert.Null(run.Failure);
        for (var i = 0; i < cells.Length; i++)
        {
            var output = Assert.Single(run.Document.Cells[i + 1].Outputs);
            Assert.Contains(cells[i].Html, output["text/html"], StringComparison.Ordinal);
            Assert.Contains(cells[i].Text, output["text/plain"], StringComparison.Ordinal);
        }

        Assert.Equal("12.5 mm", run.Document.Cells[^1].Outputs[0]["text/plain"]);
    }
}
