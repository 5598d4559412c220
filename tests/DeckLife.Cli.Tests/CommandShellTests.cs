using System.Runtime.CompilerServices;
using Xunit;

namespace DeckLife.Cli.Tests;

public class CommandShellTests
{
    [Fact]
    public void Run_UnknownVerb_ExitCode2AndNothingOnOutput()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();

        var code = CommandShell.Run(["measure"], output, error);

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Empty(output.ToString());
        Assert.Contains("measure", error.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Run_Version_PrintsIt()
    {
        using var output = new StringWriter();

        Assert.Equal(ExitCodes.Done, CommandShell.Run(["version"], output, TextWriter.Null));
        Assert.StartsWith("0.", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Run_OutputThatTheSystemRefuses_SaysWhatIsLeft()
    {
        using var output = new ClosedPipe();
        using var error = new StringWriter();

        Assert.Equal(ExitCodes.NotCompleted, CommandShell.Run(["version"], output, error));
        Assert.Contains("DL5008 error:", error.ToString(), StringComparison.Ordinal);
        Assert.Contains("Broken pipe", error.ToString(), StringComparison.Ordinal);
    }

    // What a folder is asked for first is a place that can be written to, whoever the user is: no file can be made under /proc.
    [Theory]
    [InlineData("project", "no-such-deck")]
    [InlineData("network", "no-such-network")]
    [InlineData("study", "no-such-study.json")]
    [InlineData("report", "quillmarsh-crossing")]
    public void Run_OutWhereNothingCanBeWritten_ToldBeforeTheWork(string verb, string input)
    {
        if (!OperatingSystem.IsLinux())
        {
            return; // no folder there that refuses every user
        }

        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = CommandShell.Run(
            [verb, Demo(input), "--out", "/proc/results/deep"],
            output,
            error
        );

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Empty(output.ToString());
        Assert.Contains("DL5005 error:", error.ToString(), StringComparison.Ordinal);
        Assert.Contains("/proc/results/deep", error.ToString(), StringComparison.Ordinal);
    }

    private static string Demo(string name, [CallerFilePath] string path = "") =>
        Path.Combine(Path.GetDirectoryName(path)!, "..", "..", "demo-data", name);

    private sealed class ClosedPipe : StringWriter
    {
        public override void Write(string? value) => throw new IOException("Broken pipe");

        public override void WriteLine(string? value) => throw new IOException("Broken pipe");
    }
}
