using Xunit;

namespace DeckLife.Notebooks.Tests;

public sealed class ReportFilesTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("decklife-test-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public void In_EmptyOrNewFolder_IsTaken()
    {
        Assert.NotNull(ReportFiles.In(folder.FullName, false, out var problem));
        Assert.Null(problem);
        Assert.NotNull(ReportFiles.In(Path.Combine(folder.FullName, "new"), false, out _));
        Assert.False(Directory.Exists(Path.Combine(folder.FullName, "new")));
    }

    [Fact]
    public void In_FolderThatHoldsSomething_OnlyWithForce()
    {
        File.WriteAllText(Path.Combine(folder.FullName, "mine.txt"), "mine");

        Assert.Null(ReportFiles.In(folder.FullName, false, out var problem));
        Assert.Equal("DL5001", problem!.Code);
        var files = ReportFiles.In(folder.FullName, true, out _)!;
        Assert.Null(files.Write("<p>page</p>", NotebookBuilder.Of(("", "1"))));
        Assert.Equal(
            ["deck-report.ipynb", "mine.txt", "report.html"],
            folder.GetFiles().Select(f => f.Name).Order(StringComparer.Ordinal)
        );
        Assert.Equal("mine", File.ReadAllText(Path.Combine(folder.FullName, "mine.txt")));
    }

    [Fact]
    public void In_AFile_IsRefused()
    {
        var file = Path.Combine(folder.FullName, "file");
        File.WriteAllText(file, "");

        Assert.Null(ReportFiles.In(file, true, out var problem));
        Assert.Equal("DL5005", problem!.Code);
    }

    [Fact]
    public async Task PrintAsync_NoBrowserOfThatName_SaysSoAndWritesNothing()
    {
        var before = Environment.GetEnvironmentVariable(PdfPrinter.BrowserVariable);
        var pdf = Path.Combine(folder.FullName, "out.pdf");
        try
        {
            Environment.SetEnvironmentVariable(PdfPrinter.BrowserVariable, "/no/such/browser");
            var problem = await PdfPrinter.PrintAsync("page.html", pdf);
            Assert.Equal("DL5003", problem!.Code);
            Assert.False(File.Exists(pdf));
        }
        finally
        {
            Environment.SetEnvironmentVariable(PdfPrinter.BrowserVariable, before);
        }
    }
}
