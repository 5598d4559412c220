using System.Runtime.CompilerServices;
using Xunit;

namespace DeckLife.Cli.Tests;

public class StudyVerbTests
{
    private const string Study = """
        {
          "study": "shards", "seed": 4, "section": { "ageing": "none" },
          "inputs": [
            { "input": "cover", "unit": "mm", "distribution": "gamma", "mean": 50, "standardDeviation": 8, "lower": 5, "upper": 200 },
            { "input": "surfaceChloride", "unit": "kg/m3", "value": 8 },
            { "input": "diffusionCoefficient", "unit": "mm2/yr", "distribution": "lognormal", "mean": 30, "standardDeviation": 9 },
            { "input": "chlorideThreshold", "unit": "kg/m3", "value": 1.2 }
          ],
          "outputs": [ { "output": "initiatedBy", "age_yr": 20 } ],
          "methods": [ { "method": "monteCarlo", "draws": 200000 }, { "method": "sobol", "points": 512, "bootstrap": 100 }, { "method": "reliability", "draws": 5000 } ]
        }
        """;

    private static (int Code, string Output, string Error) Run(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = CommandShell.Run(args, output, error);
        return (code, output.ToString(), error.ToString());
    }

    [Fact]
    public void Study_OutBelowAFile_RefusedBeforeAnythingIsComputed()
    {
        var folder = Directory.CreateTempSubdirectory("decklife-refused-");
        try
        {
            var file = Path.Combine(folder.FullName, "study.json");
            File.WriteAllText(file, Study);

            var (code, output, error) = Run("study", file, "--out", Path.Combine(file, "below"));

            Assert.Equal(ExitCodes.UnusableInput, code);
            Assert.Empty(output);
            Assert.Contains("DL5005", error, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
            Assert.Single(folder.GetFileSystemInfos());
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void Study_ShardsMerged_AreTheWholeRunByteForByte()
    {
        var folder = Directory.CreateTempSubdirectory("decklife-shards");
        try
        {
            var file = Path.Combine(folder.FullName, "study.json");
            File.WriteAllText(file, Study);
            var whole = Path.Combine(folder.FullName, "whole");
            Assert.Equal(0, Run("study", file, "--out", whole, "--threads", "1").Code);
            string[] shards = ["a", "b", "c"];
            for (var k = 0; k < 3; k++)
            {
                shards[k] = Path.Combine(folder.FullName, shards[k]);
                var (code, text, _) = Run(
                    "study",
                    file,
                    "--out",
                    shards[k],
                    "--shard",
                    $"{k + 1}/3"
                );
                Assert.Equal((0, ""), (code, text));
            }

            var merged = Path.Combine(folder.FullName, "merged");
            var missing = Run("study", "merge", file, shards[0], shards[2]);
            Assert.Equal(2, missing.Code);
            Assert.Contains("DL6015", missing.Error, StringComparison.Ordinal);
            Assert.Equal("", missing.Output);
            Assert.Equal(
                0,
                Run(["study", "merge", file, .. shards, "--out", merged, "--threads", "8"]).Code
            );
            foreach (
                var name in new[] { "study.json", "results.csv", "results.parquet", "columns.json" }
            )
            {
                Assert.Equal(
                    File.ReadAllBytes(Path.Combine(whole, name)),
                    File.ReadAllBytes(Path.Combine(merged, name))
                );
            }

            Assert.Empty(Directory.GetFiles(whole, "*.part"));
            Assert.Equal(2, Run("study", file, "--out", whole).Code);
            Assert.Equal(0, Run("study", file, "--out", whole, "--force").Code);
            // Another seed: the shards are not of this study.
            File.WriteAllText(
                file,
                Study.Replace("\"seed\": 4", "\"seed\": 5", StringComparison.Ordinal)
            );
            var foreign = Run("study", "merge", file, shards[0], shards[1], shards[2]);
            Assert.Equal(2, foreign.Code);
            Assert.Contains("DL6014", foreign.Error, StringComparison.Ordinal);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    // Killed in the middle without a chance to tidy up, then run again: the same bytes as a run that nobody disturbed.
    [Fact]
    public void Study_KilledAndRunAgain_ContinuesToTheSameBytes()
    {
        var folder = Directory.CreateTempSubdirectory("decklife-killed");
        try
        {
            var file = Path.Combine(folder.FullName, "study.json");
            File.WriteAllText(
                file,
                Study.Replace("\"draws\": 200000", "\"draws\": 20000000", StringComparison.Ordinal)
            );
            var killed = Path.Combine(folder.FullName, "killed");
            var part = Path.Combine(killed, "study.part");
            using (
                var process = System.Diagnostics.Process.Start(
                    new System.Diagnostics.ProcessStartInfo(
                        "dotnet",
                        [
                            typeof(CommandShell).Assembly.Location,
                            "study",
                            file,
                            "--out",
                            killed,
                            "--threads",
                            "1",
                        ]
                    )
                    {
                        RedirectStandardOutput = true,
                        RedirectStandardError = true,
                    }
                )!
            )
            {
                while (
                    !process.HasExited && !(File.Exists(part) && new FileInfo(part).Length > 2000)
                )
                {
                    Thread.Sleep(5);
                }

                process.Kill();
                process.WaitForExit();
            }

            Assert.True(File.Exists(part), "the run ended before it could be killed");
            var (code, _, error) = Run("study", file, "--out", killed);
            Assert.True(code == 0, error);
            Assert.Contains("continued: ", error, StringComparison.Ordinal);
            Assert.False(File.Exists(part));
            var whole = Path.Combine(folder.FullName, "whole");
            Assert.Equal(0, Run("study", file, "--out", whole).Code);
            foreach (var path in Directory.GetFiles(whole))
            {
                Assert.Equal(
                    File.ReadAllBytes(path),
                    File.ReadAllBytes(Path.Combine(killed, Path.GetFileName(path)))
                );
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    // Ctrl-C: exit code 130, what is done stays, and the next run goes on from it.
    [Fact]
    public void Study_Interrupted_LeavesAPartAndSays130()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // skipped: no signal can be sent to one process there
        }

        var folder = Directory.CreateTempSubdirectory("decklife-interrupted");
        try
        {
            var file = Path.Combine(folder.FullName, "study.json");
            File.WriteAllText(
                file,
                Study.Replace("\"draws\": 200000", "\"draws\": 400000000", StringComparison.Ordinal)
            );
            var output = Path.Combine(folder.FullName, "out");
            var part = Path.Combine(output, "study.part");
            using var process = System.Diagnostics.Process.Start(
                new System.Diagnostics.ProcessStartInfo(
                    "dotnet",
                    [typeof(CommandShell).Assembly.Location, "study", file, "--out", output]
                )
                {
                    RedirectStandardOutput = true,
                    RedirectStandardError = true,
                }
            )!;
            while (!process.HasExited && !(File.Exists(part) && new FileInfo(part).Length > 2000))
            {
                Thread.Sleep(5);
            }

            using (
                var signal = System.Diagnostics.Process.Start(
                    "kill",
                    ["-INT", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]
                )!
            )
            {
                signal.WaitForExit();
            }

            var ended = process.WaitForExit(60_000);
            if (!ended)
            {
                process.Kill(); // or it would go on for minutes behind the other tests
            }

            Assert.True(ended, "the signal did not end it");
            Assert.Equal(130, process.ExitCode);
            Assert.Equal("", process.StandardOutput.ReadToEnd());
            Assert.True(new FileInfo(part).Length > 2000);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData("--shard", "4/3")]
    [InlineData("--shard", "x")]
    [InlineData("--shard", "1/3")]
    [InlineData("--threads", "-1")]
    public void Study_ImpossibleArguments_AreRefused(string option, string value)
    {
        var file = Path.GetTempFileName();
        try
        {
            File.WriteAllText(file, Study);
            var (code, output, error) = Run("study", file, option, value);
            Assert.Equal(2, code);
            Assert.Equal("", output);
            Assert.Contains(option, error, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Fact]
    public void Study_NoFileOrBadFile_SaysSoInJson()
    {
        var (code, output, _) = Run("study", "no-such-study.json", "--format", "json");
        Assert.Equal(2, code);
        Assert.Contains("\"problems\"", output, StringComparison.Ordinal);
        Assert.Contains("DL6001", output, StringComparison.Ordinal);
    }

    // The studies in demo-data, as a reader would run them.
    [Theory]
    [InlineData("bare-deck", "cover")]
    [InlineData("ageing-mix", "temperature+activationTemperature")]
    [InlineData("overlay", "Shapley effect")]
    public void Study_OfTheDemoData_Runs(string name, string holds)
    {
        var (code, output, error) = Run("study", Demo(name), "--format", "csv");
        Assert.True(code == 0, error);
        Assert.Contains(holds, output, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", output, StringComparison.Ordinal);
    }

    // The study of a deck, with fewer points than its file has.
    [Fact]
    public void Study_OfADeck_WritesAllItsFiles()
    {
        var folder = Directory.CreateTempSubdirectory("decklife-deck-study");
        try
        {
            var deck = Path.GetFullPath(
                Path.Combine(Path.GetDirectoryName(Demo("x"))!, "..", "quillmarsh-crossing")
            );
            var file = Path.Combine(folder.FullName, "study.json");
            File.WriteAllText(
                file,
                File.ReadAllText(Demo("deck-overlay"))
                    .Replace(
                        "../quillmarsh-crossing",
                        deck.Replace('\\', '/'),
                        StringComparison.Ordinal
                    )
                    .Replace("\"points\": 512", "\"points\": 16", StringComparison.Ordinal)
                    .Replace("\"draws\": 1000", "\"draws\": 150", StringComparison.Ordinal)
            );
            var results = Path.Combine(folder.FullName, "results");
            var (code, output, error) = Run("study", file, "--out", results);
            Assert.True(code == 0, error);
            Assert.Contains("Quillmarsh Crossing", output, StringComparison.Ordinal);
            Assert.Contains("yearOfLimit_60yr", output, StringComparison.Ordinal);
            Assert.Contains("USD", output, StringComparison.Ordinal);
            Assert.Contains("DL6018", error, StringComparison.Ordinal);
            Assert.Equal(6, Directory.GetFiles(results).Length);
            Assert.All(
                Directory.GetFiles(results, "*.json").Concat(Directory.GetFiles(results, "*.csv")),
                f => Assert.Contains("sha256", File.ReadAllText(f), StringComparison.Ordinal)
            );
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string Demo(string name, [CallerFilePath] string path = "") =>
        Path.Combine(
            Path.GetDirectoryName(path)!,
            "..",
            "..",
            "demo-data",
            "studies",
            name + ".json"
        );
}
