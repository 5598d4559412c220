using System.Runtime.CompilerServices;
using Xunit;

namespace DeckLife.Notebooks.Tests;

[Collection(KernelRuns.Name)]
public class ShippedNotebookTests
{
    [Theory]
    [InlineData("01-fit-lab-profiles.ipynb", "folder", "deck")]
    [InlineData("02-compare-strategies.ipynb", "folder", "deck", "draws", "60")]
    [InlineData("05-published-checks.ipynb")]
    public async Task Run_ShippedNotebookOnTheDemoDeck_EndsAndEveryCellShows(
        string name,
        params string[] given
    )
    {
        var parameters = given
            .Chunk(2)
            .ToDictionary(pair => pair[0], pair => pair[1] == "deck" ? Demo() : pair[1]);

        var run = await new NotebookRunner().RunAsync(
            NotebookDocument.Load(Path.Combine(AppContext.BaseDirectory, "notebooks", name)),
            parameters
        );

        Assert.True(run.Failure is null, run.Failure?.ToString());
        var outputs = run.Document.Cells.Where(c => c.IsCode).SelectMany(c => c.Outputs).ToArray();
        Assert.NotEmpty(outputs);
        Assert.DoesNotContain(outputs, o => o.Kind == NotebookOutputKind.Error);
        Assert.DoesNotContain(
            outputs,
            o => (o["text/plain"] ?? "").Contains("NaN", StringComparison.Ordinal)
        );
        if (Environment.GetEnvironmentVariable("DECKLIFE_NOTEBOOK_OUT") is { Length: > 0 } folder)
        {
            await File.WriteAllBytesAsync(Path.Combine(folder, name), run.Document.ToBytes());
        }
    }

    private static string Demo([CallerFilePath] string path = "") =>
        Path.GetFullPath(
            Path.Combine(
                Path.GetDirectoryName(path)!,
                "..",
                "..",
                "demo-data",
                "quillmarsh-crossing"
            )
        );
}
