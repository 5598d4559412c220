using System.Runtime.CompilerServices;
using Xunit;

namespace DeckLife.Notebooks.Tests;

[Collection(KernelRuns.Name)]
public class NetworkNotebookTests
{
    [Fact]
    public async Task Run_NetworkNotebookOnAFewDecks_EndsAndItsClaimsHold()
    {
        var place = Directory.CreateTempSubdirectory("decklife-network-notebook-");
        try
        {
            FewDecks(place.FullName);
            var run = await new NotebookRunner().RunAsync(
                NotebookDocument.Load(
                    Path.Combine(AppContext.BaseDirectory, "notebooks", "04-network.ipynb")
                ),
                new Dictionary<string, string> { ["folder"] = place.FullName, ["points"] = "16" }
            );

            Assert.True(run.Failure is null, run.Failure?.ToString());
            var page = NotebookPage.Render(run, "network", default);
            Assert.Contains("dl-sortable", page, StringComparison.Ordinal);
            Assert.Contains("its unit is missing", page, StringComparison.Ordinal);
        }
        finally
        {
            place.Delete(recursive: true);
        }
    }

    // The demonstration network without most of its decks: those without cores, which need no chains, and the broken ones.
    private static void FewDecks(string target)
    {
        var demo = Demo();
        var lines = File.ReadAllLines(Path.Combine(demo, "network.json"));
        var kept = new List<string>();
        foreach (var line in lines)
        {
            if (!line.Contains("\"folder\"", StringComparison.Ordinal))
            {
                kept.Add(line);
            }
            else if (line.Split('"')[3] is "d00001" or "d00004" or "d00017" or "d00018" or "d00034")
            {
                kept.Add(line.TrimEnd(',') + (line.Split('"')[3] == "d00034" ? "" : ","));
                var folder = line.Split('"')[3];
                Directory.CreateDirectory(Path.Combine(target, folder));
                foreach (var file in Directory.EnumerateFiles(Path.Combine(demo, folder)))
                {
                    File.Copy(file, Path.Combine(target, folder, Path.GetFileName(file)));
                }
            }
        }

        File.WriteAllLines(Path.Combine(target, "network.json"), kept);
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
}
