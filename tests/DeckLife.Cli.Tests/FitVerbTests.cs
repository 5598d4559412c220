using System.Text.Json;
using Xunit;

namespace DeckLife.Cli.Tests;

public sealed class FitVerbTests : IDisposable
{
    private const string SixPoints =
        "core,depth_in,chloride_lb_per_yd3\nC1,0.5,6.95\nC1,1,5.93\nC1,1.5,4.71\nC1,2,3.44\nC1,2.5,2.98\nC1,3,2.19\n";

    private const string ThreeSlices =
        "core,top_mm,bottom_mm,chloride_kg_per_m3\nC1,6,13,3.1\nC1,13,19,2.3\nC1,19,25,1.6\n";

    private const string Skin =
        "core,top_in,bottom_in,chloride_lb_per_yd3\nC1,0,0.25,4.0\nC1,0.25,0.75,8.8\nC1,0.75,1.25,6.1\nC1,1.25,1.75,3.9\nC1,1.75,2.25,2.2\nC1,2.25,2.75,1.2\nC1,2.75,3.25,1.9\n";

    private readonly string _folder = Directory.CreateTempSubdirectory("decklife-fit-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    // Cs 8.209 lb/yd³ and D 2.412e-12 m²/s by an independent fit of these six mid-depth contents.
    [Fact]
    public void Fit_SixPoints_JsonInCanonicalUnits()
    {
        var (code, output, _) = Run(
            SixPoints,
            "--age",
            "30 yr",
            "--background",
            "0 lb/yd3",
            "--as-points",
            "--format",
            "json"
        );

        Assert.Equal(ExitCodes.Done, code);
        var core = JsonDocument.Parse(output).RootElement.GetProperty("cores")[0];
        Assert.Equal("C1", core.GetProperty("core").GetString());
        Assert.Equal("fitted", core.GetProperty("status").GetString());
        Assert.Equal(6, core.GetProperty("points").GetInt32());
        var surface = core.GetProperty("surfaceChloride");
        Assert.Equal("kg/m3", surface.GetProperty("unit").GetString());
        Assert.Equal(4.870, surface.GetProperty("value").GetDouble(), 5e-4);
        var d = core.GetProperty("diffusionCoefficient");
        Assert.Equal("mm2/yr", d.GetProperty("unit").GetString());
        Assert.Equal(76.11, d.GetProperty("value").GetDouble(), 5e-3);
        Assert.True(d.GetProperty("lower95").GetDouble() < 76);
        Assert.True(d.GetProperty("upper95").GetDouble() > 77);
        var background = core.GetProperty("background");
        Assert.True(background.GetProperty("fixed").GetBoolean());
        Assert.False(background.GetProperty("atBound").GetBoolean());
        Assert.False(background.TryGetProperty("standardError", out _));
        Assert.NotEmpty(background.GetProperty("missing").GetString()!);
    }

    [Theory]
    [InlineData("30 yr")]
    [InlineData("10957.5 d")]
    public void Fit_AgeInAnyUnit_SameNumbers(string age)
    {
        var (_, output, _) = Run(
            SixPoints,
            "--age",
            age,
            "--background",
            "0 kg/m3",
            "--format",
            "csv"
        );
        var (_, other, _) = Run(
            SixPoints,
            "--age",
            "30 yr",
            "--background",
            "0 lb/yd3",
            "--format",
            "csv"
        );

        Assert.Equal(other, output);
        Assert.StartsWith("core,status,points,age_yr,", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_ThreeSlices_ExitCode3AndTheReasonInJson()
    {
        var (code, output, _) = Run(ThreeSlices, "--age", "20 yr", "--format", "json");

        Assert.Equal(ExitCodes.NotCompleted, code);
        var core = JsonDocument.Parse(output).RootElement.GetProperty("cores")[0];
        Assert.Equal("refused", core.GetProperty("status").GetString());
        Assert.Contains(
            "free parameters",
            core.GetProperty("reason").GetString(),
            StringComparison.Ordinal
        );
        Assert.False(core.TryGetProperty("diffusionCoefficient", out _));
        Assert.Contains(
            core.GetProperty("flags").EnumerateArray(),
            f => f.GetProperty("code").GetString() == "DL2051"
        );
    }

    [Theory]
    [InlineData("--age", "0 yr")]
    [InlineData("--age", "-3 yr")]
    [InlineData("--age", "30")]
    [InlineData("--age", "thirty yr")]
    [InlineData("--background", "0.1")]
    [InlineData("--weights", "best")]
    [InlineData("--skip-surface", "-1")]
    [InlineData("--concrete-density", "0 lb/yd3")]
    public void Fit_UnusableOption_ExitCode2AndProblemsInJsonAlone(string option, string value)
    {
        string[] others = option == "--age" ? [] : ["--age", "30 yr"];

        var (code, output, error) = Run(SixPoints, [option, value, .. others, "--format", "json"]);
        var (_, text, _) = Run(SixPoints, [option, value, .. others]);

        Assert.Equal(ExitCodes.UnusableInput, code);
        var problem = JsonDocument.Parse(output).RootElement.GetProperty("problems")[0];
        Assert.Equal(option, problem.GetProperty("column").GetString());
        Assert.NotEmpty(error);
        Assert.Empty(text);
    }

    [Fact]
    public void Fit_FileThatIsNotThere_ExitCode2()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();

        var code = CommandShell.Run(
            ["fit", Path.Combine(_folder, "none.csv"), "--age", "20 yr"],
            output,
            error
        );

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Empty(output.ToString());
        Assert.Contains("none.csv", error.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_NoAgeAnywhere_ExitCode2NamingTheOption()
    {
        var (code, output, error) = Run(SixPoints);

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Empty(output);
        Assert.Contains("--age", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_SkinSlice_ExcludedByRowAndAlternativeInJson()
    {
        var (code, output, _) = Run(Skin, "--age", "22 yr", "--format", "json");

        Assert.Equal(ExitCodes.Done, code);
        var core = JsonDocument.Parse(output).RootElement.GetProperty("cores")[0];
        Assert.Equal(2, core.GetProperty("excluded")[0].GetProperty("row").GetInt32());
        Assert.Equal(7, core.GetProperty("alternative").GetProperty("points").GetInt32());
        var codes = core.GetProperty("flags")
            .EnumerateArray()
            .Select(f => f.GetProperty("code").GetString())
            .ToArray();
        Assert.Contains("DL2001", codes);
        Assert.Contains("DL2004", codes);
    }

    [Fact]
    public void Fit_SkipSurfaceZero_KeepsTheSkin()
    {
        var (_, output, _) = Run(Skin, "--age", "22 yr", "--skip-surface", "0", "--format", "json");

        var core = JsonDocument.Parse(output).RootElement.GetProperty("cores")[0];
        Assert.Equal(7, core.GetProperty("points").GetInt32());
        Assert.Equal(0, core.GetProperty("excluded").GetArrayLength());
        Assert.False(core.TryGetProperty("alternative", out _));
    }

    [Fact]
    public void Fit_Text_InTheInputsUnitsWithCanonicalBeside()
    {
        var (_, output, _) = Run(SixPoints, "--age", "30 yr", "--background", "0 lb/yd3");

        Assert.Contains("8.209 lb/yd3", output, StringComparison.Ordinal);
        Assert.Contains("= 4.87 kg/m3", output, StringComparison.Ordinal);
        Assert.Contains("in2/yr", output, StringComparison.Ordinal);
        Assert.Contains("= 76.11 mm2/yr", output, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    public void Fit_OtherCulture_SameBytes(string culture)
    {
        var before = Thread.CurrentThread.CurrentCulture;
        var expected = Run(Skin, "--age", "22 yr").Output;
        try
        {
            Thread.CurrentThread.CurrentCulture = new System.Globalization.CultureInfo(culture);
            Assert.Equal(expected, Run(Skin, "--age", "22 yr").Output);
        }
        finally
        {
            Thread.CurrentThread.CurrentCulture = before;
        }
    }

    [Fact]
    public void Fit_TwoAges_EachCoreAtItsOwn()
    {
        const string table =
            "core,age_yr,top_in,bottom_in,chloride_lb_per_yd3\nC1,38,0.25,0.75,11.2\nC1,38,0.75,1.25,8.1\nC1,38,1.25,1.75,5.6\nC1,38,1.75,2.25,3.7\nC1,38,2.25,2.75,2.3\nW1,14,0.25,0.75,7.9\nW1,14,0.75,1.25,4.0\nW1,14,1.25,1.75,1.6\nW1,14,1.75,2.25,0.5\nW1,14,2.25,2.75,0.2\n";

        var (_, output, _) = Run(table, "--age", "20 yr", "--format", "json");

        var ages = JsonDocument
            .Parse(output)
            .RootElement.GetProperty("cores")
            .EnumerateArray()
            .Select(c => c.GetProperty("age_yr").GetDouble())
            .ToArray();
        Assert.Equal([38, 14], ages);
    }

    [Fact]
    public void Fit_SixCores_PooledIntoADeck()
    {
        var table = new System.Text.StringBuilder(
            "core,age_yr,top_in,bottom_in,chloride_lb_per_yd3\n"
        );
        double[] shape = [9.1, 6.4, 4.1, 2.5, 1.4, 0.8];
        for (var core = 0; core < 6; core++)
        {
            for (var i = 0; i < shape.Length; i++)
            {
                // Invented: one shape, scaled from core to core, with a slip of a few per cent.
                var content = (shape[i] * (0.8 + (0.08 * core))) + (0.05 * ((core + i) % 3));
                table.Append(
                    System.Globalization.CultureInfo.InvariantCulture,
                    $"C{core},25,{0.25 + (0.5 * i)},{0.75 + (0.5 * i)},{content:F3}\n"
                );
            }
        }

        var (code, output, _) = Run(table.ToString(), "--format", "json");

        Assert.Equal(ExitCodes.Done, code);
        var deck = JsonDocument.Parse(output).RootElement.GetProperty("deck");
        Assert.Equal(6, deck.GetProperty("cores").GetInt32());
        Assert.InRange(deck.GetProperty("surfaceChloride").GetProperty("median").GetDouble(), 5, 9);
        Assert.InRange(
            deck.GetProperty("diffusionCoefficient").GetProperty("median").GetDouble(),
            10,
            60
        );
        Assert.True(deck.GetProperty("convergence").GetProperty("splitRhat").GetDouble() < 1.02);
        Assert.True(deck.GetProperty("betweenCoreSd").TryGetProperty("lnSurfaceChloride", out _));
        Assert.True(deck.TryGetProperty("labErrorSd", out _));
        Assert.NotEmpty(deck.GetProperty("method").GetString()!);
    }

    [Fact]
    public void Fit_DeckFolder_DeckObjectCompleteAndPooledAsTheFolderSays()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();

        var code = CommandShell.Run(["fit", Demo(), "--format", "json"], output, error);

        Assert.Equal(ExitCodes.Done, code);
        var deck = JsonDocument.Parse(output.ToString()).RootElement.GetProperty("deck");
        Assert.Equal(40.5, deck.GetProperty("referenceExposureAge_yr").GetDouble());
        Assert.Equal("kg/m3", deck.GetProperty("surfaceChloride").GetProperty("unit").GetString());
        foreach (
            var name in new[]
            {
                "background",
                "correlation",
                "covariance",
                "labErrorSd",
                "ageingExponent",
            }
        )
        {
            var estimate = deck.GetProperty(name);
            Assert.True(
                estimate.GetProperty("lower95").GetDouble()
                    < estimate.GetProperty("upper95").GetDouble(),
                name
            );
        }

        var names = deck.GetProperty("coreEstimates")
            .EnumerateArray()
            .Select(c => c.GetProperty("core").GetString()!)
            .ToArray();
        Assert.Equal(deck.GetProperty("cores").GetInt32(), names.Length);
        var cracks = deck.GetProperty("crackCores").GetProperty("coreEstimates");
        Assert.DoesNotContain(cracks[0].GetProperty("core").GetString(), names);
        var reml = deck.GetProperty("restrictedMaximumLikelihood");
        Assert.Equal(names.Length - 1, reml.GetProperty("degreesOfFreedom").GetInt32());
        // Two ways to the same deck: the medians agree well within the limits.
        Assert.Equal(
            reml.GetProperty("diffusionCoefficient").GetProperty("median").GetDouble(),
            deck.GetProperty("diffusionCoefficient").GetProperty("median").GetDouble(),
            2.0
        );
        Assert.NotEqual(0, deck.GetProperty("priors").GetArrayLength());
        Assert.DoesNotContain("19.0499", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_DeckFolderAsText_DeckWithTheOtherMethodBeside()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();

        CommandShell.Run(["fit", Demo()], output, error);

        var text = output.ToString();
        Assert.Contains("\ndeck: fitted, 10 cores, ", text, StringComparison.Ordinal);
        Assert.Contains("D at 40.5 yr of exposure", text, StringComparison.Ordinal);
        Assert.Contains("restricted maximum likelihood", text, StringComparison.Ordinal);
        Assert.Contains("\ncores on cracks: limited, 1 core, ", text, StringComparison.Ordinal);
    }

    // Invented: six slices of which the first and second carry the fall.
    [Fact]
    public void Fit_SeveralSlicesDecide_OneLineWithTheirRows()
    {
        const string table =
            "core,age_yr,top_mm,bottom_mm,chloride_kg_per_m3\nC1,20,0,6,9.0\nC1,20,6,12,2.5\nC1,20,12,18,2.2\nC1,20,18,24,1.1\nC1,20,24,30,1.4\nC1,20,30,36,0.6\n";

        var (_, output, _) = Run(table, "--format", "json");

        var flags = JsonDocument
            .Parse(output)
            .RootElement.GetProperty("cores")[0]
            .GetProperty("flags")
            .EnumerateArray()
            .Where(f => f.GetProperty("code").GetString() == "DL2010")
            .Select(f => f.GetProperty("text").GetString()!)
            .ToArray();
        var text = Assert.Single(flags);
        Assert.Contains("without row 2 it would be", text, StringComparison.Ordinal);
        Assert.Contains("without row 3 it would be", text, StringComparison.Ordinal);
        // A reason stands once in the text, not again among the flags.
        var (_, page, _) = Run(table);
        Assert.Equal(2, page.Split("DL2013").Length);
        Assert.Contains(
            "The lower 95 % limit of D lies outside the search",
            page,
            StringComparison.Ordinal
        );
    }

    // Limits of the default hold for every kind of error; those of constant errors stand beside them, and are the limits where that kind is stated.
    [Fact]
    public void Fit_WeightsConstantStated_LimitsOfConstantErrorsAlone()
    {
        string[] options = ["--age", "30 yr", "--format", "json"];
        var (_, unstated, _) = Run(SixPoints, options);
        var (_, stated, _) = Run(SixPoints, ["--weights", "constant", .. options]);

        JsonElement Of(string output) =>
            JsonDocument
                .Parse(output)
                .RootElement.GetProperty("cores")[0]
                .GetProperty("diffusionCoefficient");
        var (one, other) = (Of(unstated), Of(stated));
        Assert.Equal(one.GetProperty("value").GetDouble(), other.GetProperty("value").GetDouble());
        Assert.Equal(
            one.GetProperty("constantErrorsLower95").GetDouble(),
            other.GetProperty("lower95").GetDouble()
        );
        Assert.True(
            one.GetProperty("lower95").GetDouble() <= other.GetProperty("lower95").GetDouble()
        );
        Assert.Contains(
            "over errors from constant",
            one.GetProperty("limitMethod").GetString(),
            StringComparison.Ordinal
        );
        Assert.False(other.TryGetProperty("constantErrorsLower95", out _));
    }

    private static string Demo([System.Runtime.CompilerServices.CallerFilePath] string path = "") =>
        Path.GetFullPath(
            Path.Combine(
                Path.GetDirectoryName(path)!,
                "..",
                "..",
                "demo-data",
                "quillmarsh-crossing"
            )
        );

    private (int Code, string Output, string Error) Run(string table, params string[] options)
    {
        var file = Path.Combine(_folder, "chlorides.csv");
        File.WriteAllText(file, table);
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = CommandShell.Run(["fit", file, .. options], output, error);
        return (code, output.ToString(), error.ToString());
    }
}
