using System.Runtime.CompilerServices;
using Xunit;

namespace DeckLife.Notebooks.Tests;

[Collection(KernelRuns.Name)]
public class StudyNotebookTests
{
    [Fact]
    public async Task Run_SensitivityStudyOnTheDemoData_EndsAndItsClaimsHold()
    {
        var notebook = NotebookDocument.Load(
            Path.Combine(AppContext.BaseDirectory, "notebooks", "03-sensitivity-study.ipynb")
        );
        var run = await new NotebookRunner().RunAsync(
            notebook,
            new Dictionary<string, string> { ["file"] = Demo() }
        );

        Assert.True(run.Failure is null, run.Failure?.ToString());
    }

    private static string Demo([CallerFilePath] string path = "") =>
        Path.GetFullPath(
            Path.Combine(
                Path.GetDirectoryName(path)!,
                "..",
                "..",
                "demo-data",
                "studies",
                "bare-deck.json"
            )
        );
}
