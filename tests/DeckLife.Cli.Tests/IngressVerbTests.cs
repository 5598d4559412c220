using System.Runtime.CompilerServices;
using System.Text.Json;
using Xunit;

namespace DeckLife.Cli.Tests;

public class IngressVerbTests
{
    [Fact]
    public void Ingress_Json_PrintsRowsInTheOrderAsked()
    {
        using var output = new StringWriter();

        var code = CommandShell.Run(
            ["ingress", Case("01-constant-surface"), "--format", "json"],
            output,
            TextWriter.Null
        );

        Assert.Equal(ExitCodes.Done, code);
        using var document = JsonDocument.Parse(output.ToString());
        var rows = document.RootElement.GetProperty("rows").EnumerateArray().ToArray();
        Assert.Equal(16, rows.Length);
        Assert.Equal(25, rows[1].GetProperty("depth_mm").GetDouble());
        // Cs 5, C0 0.1, D 30, t 20, x 25: 2.405383468088 (Crank 1975 eq. 2.45); the estimate is at most 2e-4 of 5.
        var row = rows.Single(r =>
            r.GetProperty("time_yr").GetDouble() == 20
            && r.GetProperty("depth_mm").GetDouble() == 25
        );
        Assert.Equal(2.405383468088, row.GetProperty("chloride_kg_per_m3").GetDouble(), 1e-3);
        Assert.InRange(
            document.RootElement.GetProperty("errorEstimate_kg_per_m3").GetDouble(),
            0,
            1e-3
        );
        Assert.InRange(document.RootElement.GetProperty("massBalanceError").GetDouble(), 0, 1e-10);
    }

    [Fact]
    public void Ingress_CaseSavedAsUtf16_IsReadAsTheSame()
    {
        static string Rows(string file)
        {
            using var output = new StringWriter();
            Assert.Equal(
                ExitCodes.Done,
                CommandShell.Run(["ingress", file, "--format", "csv"], output, TextWriter.Null)
            );
            return output.ToString();
        }

        var other = Path.GetTempFileName();
        try
        {
            File.WriteAllText(
                other,
                File.ReadAllText(Case("01-constant-surface")),
                System.Text.Encoding.Unicode
            );
            Assert.Equal(Rows(Case("01-constant-surface")), Rows(other));
        }
        finally
        {
            File.Delete(other);
        }
    }

    [Theory]
    [InlineData("text", "Error of any row")]
    [InlineData("csv", "time_yr,depth_mm,chloride_kg_per_m3,layer")]
    public void Ingress_OtherFormats_Print(string format, string part)
    {
        using var output = new StringWriter();
        Assert.Equal(
            ExitCodes.Done,
            CommandShell.Run(
                ["ingress", Case("07-capacities"), "--format", format],
                output,
                TextWriter.Null
            )
        );
        Assert.Contains(part, output.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("text")]
    [InlineData("json")]
    [InlineData("csv")]
    public void Ingress_UnusableCase_ExitCode2AndProblemsOnlyAsJson(string format)
    {
        var file = Path.Combine(Path.GetTempPath(), $"ingress-{Guid.NewGuid():N}.json");
        File.WriteAllText(file, "{ \"layer\": [] }");
        try
        {
            using var output = new StringWriter();
            using var error = new StringWriter();

            Assert.Equal(
                ExitCodes.UnusableInput,
                CommandShell.Run(["ingress", file, "--format", format], output, error)
            );
            Assert.Contains("Did you mean 'layers'?", error.ToString(), StringComparison.Ordinal);
            if (format == "json")
            {
                using var document = JsonDocument.Parse(output.ToString());
                Assert.True(document.RootElement.GetProperty("problems").GetArrayLength() > 1);
            }
            else
            {
                Assert.Empty(output.ToString());
            }
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Fact]
    public void Ingress_FileThatIsNotThere_ExitCode2()
    {
        using var error = new StringWriter();
        Assert.Equal(
            ExitCodes.UnusableInput,
            CommandShell.Run(["ingress", "no-such-case.json"], TextWriter.Null, error)
        );
        Assert.Matches(@"DL3019 error: .*no-such-case\.json", error.ToString());
    }

    private static string Case(string name, [CallerFilePath] string path = "") =>
        Path.Combine(
            Path.GetDirectoryName(path)!,
            "../../reference-checks/ingress-cases",
            name + ".json"
        );
}
