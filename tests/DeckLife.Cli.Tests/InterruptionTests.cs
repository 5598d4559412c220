using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Text;
using Xunit;

namespace DeckLife.Cli.Tests;

/// <summary>The command as a process of its own, ended in the middle of its work.</summary>
public sealed class InterruptionTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("decklife-ended-");

    private string Out => Path.Combine(folder.FullName, "out");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public void Report_InterruptedByCtrlC_ExitCode130AndNothingHalfWritten()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // no signal that one process can send another there
        }

        Interrupt("cell 6 of", "report", Demo("quillmarsh-crossing"), "--out", Out);

        Assert.False(Directory.Exists(Out) && Directory.GetFiles(Out).Length > 0);
    }

    [Fact]
    public void Network_InterruptedByCtrlC_ExitCode130AndOnlyWholeShards()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        Interrupt(
            " of 40 decks",
            "network",
            Demo("harrowmere-district"),
            "--out",
            Out,
            "--page",
            "--draws",
            "20",
            "--points",
            "16"
        );

        // Shards that are whole are what --resume goes on from; of a result there is nothing yet. A machine too busy to put its work
        // away in time leaves a part, whose name no reader takes for a shard's.
        Assert.Empty(Directory.GetFiles(Out));
        Assert.All(
            Directory.GetFiles(Out, "*", SearchOption.AllDirectories),
            f => Assert.Matches(@"shard-\d+-of-\d+\.parquet(\.[^/]*\.tmp)?$", f)
        );
    }

    [Fact]
    public void Study_InterruptedByCtrlC_ExitCode130AndOnlyThePartThatIsContinuedFrom()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        var study = Path.Combine(folder.FullName, "long.json");
        File.WriteAllText(
            study,
            File.ReadAllText(Path.Combine(Demo("studies"), "bare-deck.json"))
                .Replace("\"draws\": 200000", "\"draws\": 60000000", StringComparison.Ordinal)
        );

        Interrupt("evaluating: 10 %", "study", study, "--out", Out);

        Assert.Equal(["study.part"], Directory.GetFiles(Out).Select(Path.GetFileName));
    }

    [Fact]
    public void Report_Killed_LeavesNothingThatLooksLikeAReport()
    {
        using var process = Start(
            out var errors,
            "report",
            Demo("quillmarsh-crossing"),
            "--out",
            Out
        );
        WaitFor("cell 6 of", errors, process);
        process.Kill();
        process.WaitForExit();

        Assert.NotEqual(ExitCodes.Done, process.ExitCode);
        Assert.False(
            Directory.Exists(Out)
                && Directory.GetFiles(Out).Any(f => !f.EndsWith(".part", StringComparison.Ordinal))
        );
    }

    private static void Interrupt(string after, params string[] arguments)
    {
        using var process = Start(out var errors, arguments);
        WaitFor(after, errors, process);
        using (var kill = Process.Start("kill", ["-INT", $"{process.Id}"]))
        {
            kill.WaitForExit();
        }

        Assert.True(process.WaitForExit(60_000), "the command went on after SIGINT");
        Assert.Equal(ExitCodes.Interrupted, process.ExitCode);
    }

    private static Process Start(out StringBuilder errors, params string[] arguments)
    {
        // The command lies beside this test as a library; the host starts it as the command's own file would.
        var start = new ProcessStartInfo(DotnetHost())
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        foreach (
            var argument in new[]
            {
                "exec",
                Path.Combine(AppContext.BaseDirectory, "DeckLife.Cli.dll"),
            }.Concat(arguments)
        )
        {
            start.ArgumentList.Add(argument);
        }

        var said = new StringBuilder();
        errors = said;
        var process = new Process { StartInfo = start };
        process.ErrorDataReceived += (_, line) =>
        {
            lock (said)
            {
                said.AppendLine(line.Data);
            }
        };
        process.OutputDataReceived += (_, _) => { };
        process.Start();
        process.BeginErrorReadLine();
        process.BeginOutputReadLine();
        return process;
    }

    // The work has begun, and much of it lies ahead: nothing is written yet that is whole.
    private static void WaitFor(string said, StringBuilder errors, Process process)
    {
        var waited = Stopwatch.StartNew();
        while (waited.Elapsed < TimeSpan.FromMinutes(2))
        {
            lock (errors)
            {
                if (errors.ToString().Contains(said, StringComparison.Ordinal))
                {
                    return;
                }
            }

            Assert.False(process.HasExited, errors.ToString());
            Thread.Sleep(20);
        }

        Assert.Fail($"the command did not say '{said}' in two minutes: {errors}");
    }

    private static string DotnetHost() =>
        Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") is { Length: > 0 } host ? host
        : Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet"
            ? Environment.ProcessPath!
        : "dotnet";

    private static string Demo(string name, [CallerFilePath] string path = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(path)!, "..", "..", "demo-data", name));
}
