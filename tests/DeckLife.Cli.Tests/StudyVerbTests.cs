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

    // The three studies in demo-data, as a reader would run them.
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
