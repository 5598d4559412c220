using System.Globalization;
using System.Text;
using Xunit;

namespace DeckLife.Notebooks.Tests;

[Collection(KernelRuns.Name)]
public class NotebookRunnerTests
{
    private const string UntilReleased =
        "while (AppContext.GetData(\"decklife-release\") is null) System.Threading.Thread.Sleep(10);";

    private static readonly Dictionary<string, string> None = [];

    [Fact]
    public async Task Run_CellsShareState_OutputsInOrder()
    {
        var notebook = NotebookBuilder.Of(
            ("markdown", "# Title"),
            ("", "var x = 20; Console.WriteLine(\"out\"); Console.Write(\"more\");"),
            ("", "x + 1")
        );

        var run = await new NotebookRunner().RunAsync(notebook, None);

        Assert.Null(run.Failure);
        Assert.Equal(0, run.ExitCode);
        var first = Assert.Single(run.Document.Cells[1].Outputs);
        Assert.Equal(NotebookOutputKind.StandardOutput, first.Kind);
        Assert.Equal("out\nmore", first["text/plain"]!.Replace("\r", "", StringComparison.Ordinal));
        var second = Assert.Single(run.Document.Cells[2].Outputs);
        Assert.Equal(NotebookOutputKind.Result, second.Kind);
        Assert.Contains(
            "21",
            second["text/html"] ?? second["text/plain"],
            StringComparison.Ordinal
        );
        Assert.Equal(2, run.Document.Cells[2].ExecutionCount);
        Assert.Null(notebook.Cells[2].ExecutionCount);
    }

    [Fact]
    public async Task Run_ThrowingCell_LaterCellsDoNotRunAndPartialOutputIsKept()
    {
        var notebook = NotebookBuilder.Of(
            ("", "Console.Write(\"kept\");"),
            ("", "Console.Write(\"before\"); throw new InvalidOperationException(\"no cover\");"),
            ("", "Console.Write(\"never\");")
        );

        var run = await new NotebookRunner().RunAsync(notebook, None);

        Assert.Equal(3, run.ExitCode);
        Assert.Equal(2, run.Failure!.CellNumber);
        Assert.Equal("System.InvalidOperationException", run.Failure.ErrorName);
        Assert.Equal("no cover", run.Failure.Message);
        Assert.Equal("kept", run.Document.Cells[0].Outputs[0]["text/plain"]);
        Assert.Equal("before", run.Document.Cells[1].Outputs[0]["text/plain"]);
        Assert.Equal(NotebookOutputKind.Error, run.Document.Cells[1].Outputs[^1].Kind);
        Assert.Empty(run.Document.Cells[2].Outputs);
        Assert.Null(run.Document.Cells[2].ExecutionCount);
    }

    [Fact]
    public async Task Run_CellThatDoesNotCompile_NamesTheCellAndTheError()
    {
        var run = await new NotebookRunner().RunAsync(
            NotebookBuilder.Of(("markdown", "text"), ("", "var y = unknownName;")),
            None
        );

        Assert.Equal(2, run.Failure!.CellNumber);
        Assert.Equal(1, run.Failure.ExecutionCount);
        Assert.Contains("CS0103", run.Failure.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_EndlessCell_EndsAtTheTimeLimitWithPartialOutput()
    {
        var run = await new NotebookRunner(
            new() { CellTimeLimit = TimeSpan.FromSeconds(10) }
        ).RunAsync(
            // Ends when the test says so: an abandoned cell would hold the console of the tests that follow.
            NotebookBuilder.Of(("", "Console.WriteLine(\"begun\"); " + UntilReleased), ("", "1")),
            None
        );

        await ReleaseAsync();
        Assert.Equal("TimeLimit", run.Failure!.ErrorName);
        Assert.Contains("10 s", run.Failure.Message, StringComparison.Ordinal);
        Assert.Contains(
            run.Document.Cells[0].Outputs,
            o => (o["text/plain"] ?? "").Contains("begun", StringComparison.Ordinal)
        );
        Assert.Null(run.Document.Cells[1].ExecutionCount);
    }

    [Fact]
    public async Task Run_Parameters_ReachTheCells()
    {
        var run = await new NotebookRunner().RunAsync(
            NotebookBuilder.Of(
                ("parameters", "string folder = \"none\"; double years = 1;"),
                ("", "Console.Write(folder + \"|\" + years.ToString());")
            ),
            new Dictionary<string, string>
            {
                ["folder"] = "a \"quoted\" \\ name",
                ["years"] = "2.5",
            }
        );

        Assert.Equal("a \"quoted\" \\ name|2.5", run.Document.Cells[1].Outputs[0]["text/plain"]);
    }

    [Fact]
    public async Task Run_UnknownParameter_ErrorWithNearestName()
    {
        var e = await Assert.ThrowsAsync<NotebookException>(() =>
            new NotebookRunner().RunAsync(
                NotebookBuilder.Of(("parameters", "string folder = \"\"; double years = 1;")),
                new Dictionary<string, string> { ["foldr"] = "x", ["years"] = "2,5" }
            )
        );

        Assert.Contains("Did you mean 'folder'?", e.Message, StringComparison.Ordinal);
        Assert.Contains("'2,5' is not a number", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("#r \"nuget: Some.Package\"")]
    [InlineData("#load \"other.csx\"")]
    [InlineData("#!import \"other.dib\"")]
    [InlineData("#i \"nuget:somewhere\"")]
    public async Task Run_DirectiveOutsideTheSetupCell_IsRefused(string directive)
    {
        await Assert.ThrowsAsync<NotebookException>(() =>
            new NotebookRunner().RunAsync(NotebookBuilder.Of(("", directive)), None)
        );
        var run = await new NotebookRunner().RunAsync(
            NotebookBuilder.Of(("setup", directive + "\nvar z = 1;"), ("", "Console.Write(z);")),
            None
        );
        Assert.Equal("1", run.Document.Cells[1].Outputs[0]["text/plain"]);
    }

    [Fact]
    public async Task Run_SameNotebookTwiceUnderTwoCultures_SameBytes()
    {
        var notebook = NotebookBuilder.Of(
            ("", "using DeckLife.Quantities;"),
            ("", "Console.WriteLine(1234.5.ToString()); Depth.FromMillimetres(12.5).ToString()"),
            ("", "(1.5).ToString(\"N3\")")
        );
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            var first = await new NotebookRunner().RunAsync(notebook, None);
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("tr-TR");
            var second = await new NotebookRunner().RunAsync(notebook, None);

            Assert.Null(first.Failure);
            Assert.Equal(first.Document.ToBytes(), second.Document.ToBytes());
            Assert.Contains(
                "1234.5",
                Encoding.UTF8.GetString(first.Document.ToBytes()),
                StringComparison.Ordinal
            );
            Assert.Equal("tr-TR", CultureInfo.CurrentCulture.Name);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public async Task Run_Always_GivesTheConsoleBack()
    {
        var before = Console.Out;
        await new NotebookRunner().RunAsync(NotebookBuilder.Of(("", "1")), None);
        Assert.Same(before, Console.Out);
    }

    [Fact]
    public async Task Run_Cancelled_EndsWithTheCancellation()
    {
        using var source = new CancellationTokenSource(TimeSpan.FromSeconds(3));
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() =>
            new NotebookRunner().RunAsync(
                NotebookBuilder.Of(("", UntilReleased)),
                None,
                source.Token
            )
        );
        await ReleaseAsync();
    }

    private static async Task ReleaseAsync()
    {
        AppDomain.CurrentDomain.SetData("decklife-release", true);
        await Task.Delay(500);
        AppDomain.CurrentDomain.SetData("decklife-release", null);
    }
}
