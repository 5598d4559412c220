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
}
