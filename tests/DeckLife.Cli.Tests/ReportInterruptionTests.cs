using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Text;
using Xunit;

namespace DeckLife.Cli.Tests;

/// <summary>The command as a process of its own, ended in the middle of a report.</summary>
public sealed class ReportInterruptionTests : IDisposable
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

        using var process = Start(out var errors);
        WaitForCell(errors, process);
        using (var kill = Process.Start("kill", ["-INT", $"{process.Id}"]))
        {
            kill.WaitForExit();
        }

        Assert.True(process.WaitForExit(60_000), "the command went on after SIGINT");
        Assert.Equal(ExitCodes.Interrupted, process.ExitCode);
        Assert.False(Directory.Exists(Out) && Directory.GetFiles(Out).Length > 0);
    }

    [Fact]
    public void Report_Killed_LeavesNothingThatLooksLikeAReport()
    {
        using var process = Start(out var errors);
        WaitForCell(errors, process);
        process.Kill();
        process.WaitForExit();

        Assert.NotEqual(ExitCodes.Done, process.ExitCode);
        Assert.False(
            Directory.Exists(Out)
                && Directory.GetFiles(Out).Any(f => !f.EndsWith(".part", StringComparison.Ordinal))
        );
    }

    private Process Start(out StringBuilder errors)
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
                "report",
                Demo(),
                "--out",
                Out,
            }
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

    // The projection has begun: minutes of work on a slow machine lie ahead, and nothing is written yet.
    private static void WaitForCell(StringBuilder errors, Process process)
    {
        var waited = Stopwatch.StartNew();
        while (waited.Elapsed < TimeSpan.FromMinutes(2))
        {
            lock (errors)
            {
                if (errors.ToString().Contains("cell 6 of", StringComparison.Ordinal))
                {
                    return;
                }
            }

            Assert.False(process.HasExited, errors.ToString());
            Thread.Sleep(20);
        }

        Assert.Fail("the report did not get to its sixth cell in two minutes: " + errors);
    }

    private static string DotnetHost() =>
        Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") is { Length: > 0 } host ? host
        : Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet"
            ? Environment.ProcessPath!
        : "dotnet";

    private static string Demo([CallerFilePath] string path = "") =>
        Path.GetFullPath(
            Path.Combine(
                Path.GetDirectoryName(path)!,
                "..",
                "..",
                "demo-data",
                "quillmarsh-crossing"
            )
        );
}
