using System.Diagnostics;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Notebooks.Tests;

/// <summary>Executed notebooks by the judgement of Jupyter's own library (Debian: python3-nbformat).</summary>
[Collection(KernelRuns.Name)]
public sealed class NotebookFormatTests(ITestOutputHelper output) : IDisposable
{
    private const string Python = "/usr/bin/python3";

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("decklife-format-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task ToBytes_ExecutedNotebooksFailedOnesToo_ValidByNbformat()
    {
        if (!File.Exists(Python) || Run("-c", "import nbformat").Code != 0)
        {
            output.WriteLine("skipped: python3-nbformat absent");
            return;
        }

        var whole = await new NotebookRunner().RunAsync(
            NotebookBuilder.Of(
                ("markdown", "# Title"),
                ("parameters", "double years = 1;"),
                (
                    "",
                    "Console.WriteLine(\"out\"); Console.Error.WriteLine(\"err\"); display(years);"
                ),
                ("", "using DeckLife.Quantities;\nDepth.FromMillimetres(12.5)")
            ),
            new Dictionary<string, string> { ["years"] = "2" }
        );
        var failed = await new NotebookRunner().RunAsync(
            NotebookBuilder.Of(("", "Console.Write(1);"), ("", "throw new Exception(\"no\");")),
            new Dictionary<string, string>()
        );
        Assert.Null(whole.Failure);
        Assert.NotNull(failed.Failure);

        foreach (var (name, run) in new[] { ("whole", whole), ("failed", failed) })
        {
            var path = Path.Combine(folder.FullName, name + ".ipynb");
            await File.WriteAllBytesAsync(path, run.Document.ToBytes());
            var (code, said) = Run(
                "-W",
                "error",
                "-c",
                "import nbformat,sys; nbformat.validate(nbformat.read(sys.argv[1], as_version=4))",
                path
            );
            Assert.True(code == 0, said);
        }

        // The judge does judge: an output of no known kind is refused.
        var broken = Path.Combine(folder.FullName, "broken.ipynb");
        await File.WriteAllTextAsync(
            broken,
            (await File.ReadAllTextAsync(Path.Combine(folder.FullName, "whole.ipynb"))).Replace(
                "\"output_type\": \"stream\"",
                "\"output_type\": \"river\"",
                StringComparison.Ordinal
            )
        );
        Assert.NotEqual(
            0,
            Run(
                "-c",
                "import nbformat,sys; nbformat.validate(nbformat.read(sys.argv[1], as_version=4))",
                broken
            ).Code
        );
    }

    private static (int Code, string Said) Run(params string[] arguments)
    {
        var start = new ProcessStartInfo(Python)
        {
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        using var process = Process.Start(start)!;
        var said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, said);
    }
}
