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
    public async Task PrintAsync_NoBrowserOfThatName_SaysSoAndWritesNothing() =>
        Assert.Equal("DL5003", (await PrintedBy("/no/such/browser")).Code);

    [Theory]
    [InlineData("#!/bin/sh\necho no display >&2\nexit 7\n", true, "no display")]
    [InlineData("#!/bin/sh\nexit 7\n", true, "it ended with code 7 and said nothing")]
    // Not a program at all: the system refuses to start it.
    [InlineData("no program", false, "")]
    public async Task PrintAsync_BrowserThatDoesNotPrint_SaysWhy(
        string program,
        bool executable,
        string said
    )
    {
        if (OperatingSystem.IsWindows())
        {
            return; // no shell scripts there
        }

        var browser = Path.Combine(folder.FullName, "browser");
        File.WriteAllText(browser, program);
        if (executable)
        {
            File.SetUnixFileMode(
                browser,
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
            );
        }

        var problem = await PrintedBy(browser);

        Assert.Equal("DL5004", problem.Code);
        Assert.Contains(said, problem.Text, StringComparison.Ordinal);
        Assert.DoesNotMatch(":\\s*$", problem.Text);
    }

    private async Task<Diagnostics.Diagnostic> PrintedBy(string browser)
    {
        var before = Environment.GetEnvironmentVariable(PdfPrinter.BrowserVariable);
        var pdf = Path.Combine(folder.FullName, "out.pdf");
        try
        {
            Environment.SetEnvironmentVariable(PdfPrinter.BrowserVariable, browser);
            var problem = await PdfPrinter.PrintAsync("page.html", pdf);
            Assert.False(File.Exists(pdf));
            return problem!;
        }
        finally
        {
            Environment.SetEnvironmentVariable(PdfPrinter.BrowserVariable, before);
        }
    }
}
