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

    [Theory]
    [InlineData("Try: decklife --help", "measure")]
    [InlineData("Try: decklife fit --help", "fit")]
    [InlineData("Try: decklife network merge --help", "network", "merge")]
    public void Run_WrongArguments_NamesTheHelpThatThereIs(string hint, params string[] args)
    {
        using var error = new StringWriter();
        using var help = new StringWriter();

        CommandShell.Run(args, TextWriter.Null, error);

        Assert.Contains(hint, error.ToString(), StringComparison.Ordinal);
        Assert.Equal(
            ExitCodes.Done,
            CommandShell.Run([.. hint.Split(' ').Skip(2)], help, TextWriter.Null)
        );
    }

    [Theory]
    [InlineData("study merge", "decklife study merge <file> <folders>... [options]")]
    [InlineData("network merge", "decklife network merge <folder> <shards>... [options]")]
    [InlineData("fit", "decklife fit <file-or-folder> [options]")]
    public void Run_HelpBeforeOrAfterTheVerb_TheSameWithAUsageThatRuns(string verb, string usage)
    {
        using var before = new StringWriter();
        using var after = new StringWriter();

        CommandShell.Run(["help", .. verb.Split(' ')], before, TextWriter.Null);
        CommandShell.Run([.. verb.Split(' '), "--help"], after, TextWriter.Null);

        Assert.Equal(after.ToString(), before.ToString());
        // The command's file has another name where tests run it.
        Assert.Contains(usage["decklife".Length..], after.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("study")]
    [InlineData("ingress")]
    [InlineData("placement-day", "--hours")]
    public void Run_AFileOfMoreThan256Megabytes_RefusedBeforeItIsRead(params string[] call)
    {
        var path = Path.GetTempFileName();
        try
        {
            using (var file = File.OpenWrite(path))
            {
                file.SetLength((256L << 20) + 1);
            }

            using var error = new StringWriter();

            var code = CommandShell.Run([.. call, path], TextWriter.Null, error);

            Assert.Equal(ExitCodes.UnusableInput, code);
            Assert.Contains("at most 256 MB", error.ToString(), StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(path);
        }
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
