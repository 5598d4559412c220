using System.Text.Json;
using Xunit;

namespace DeckLife.Cli.Tests;

/// <summary>
/// A deck that wears an overlay. The contents of the case come from the finite-volume solver, rounded to 0.01 kg/m³, with errors of 0.03 kg/m³:
/// K-1 has Cs 10, D 5 in the overlay and 25 in the deck, old surface content 8, background 0.2; K-2, taken ten years earlier, 9, 6, 30, 7 and 0.2.
/// K-0 has the age of a core from before the overlay.
/// </summary>
public sealed class FitVerbOverlaidTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("decklife-fit-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Fit_DepthsFromThePresentSurface_TwoLayersWithTheSaltUnderThem()
    {
        var (code, output, _) = Run(Case(), "--format", "json");

        Assert.Equal(ExitCodes.Done, code);
        var root = JsonDocument.Parse(output).RootElement;
        var cores = root.GetProperty("cores")
            .EnumerateArray()
            .ToDictionary(c => c.GetProperty("core").GetString()!);
        Holds(cores["K-1"], 20, 10, 5, 25, 8);
        Holds(cores["K-2"], 10, 9, 6, 30, 7);
        Assert.Equal("refused", cores["K-0"].GetProperty("status").GetString());
        Assert.Equal("DL2063", Assert.Single(Codes(cores["K-0"])));
        Assert.Contains("DL2032", Codes(cores["K-1"]));
        Assert.Equal(11, cores["K-1"].GetProperty("slices").GetArrayLength());
        Assert.False(root.TryGetProperty("deck", out _));
        Assert.Contains(
            "two",
            root.GetProperty("deckReason").GetString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Fit_DepthsFromThePresentSurface_TextNamesBothLayers()
    {
        var (_, output, _) = Run(Case());

        Assert.Contains(
            "through 32 mm of overlay into the deck, 40.5 yr, the last 20 under the overlay",
            output,
            StringComparison.Ordinal
        );
        Assert.Contains("\n  D of the overlay", output, StringComparison.Ordinal);
        Assert.Contains("\n  D of the deck", output, StringComparison.Ordinal);
        Assert.Contains("\n  Cs before the overlay", output, StringComparison.Ordinal);
        Assert.Contains("\ndeck: not pooled. ", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--as-points", null)]
    [InlineData("--robust", null)]
    [InlineData("--weights", "relative")]
    [InlineData("--skip-surface", "1")]
    [InlineData("--format", "csv")]
    public void Fit_OptionOfOneLayer_RefusedBeforeAnythingIsComputed(string option, string? value)
    {
        string[] options = value is null ? [option] : [option, value];

        var (code, output, error) = Run(Case(), options);

        Assert.Equal(ExitCodes.UnusableInput, code);
        Assert.Empty(output);
        Assert.Contains("DL2090", error, StringComparison.Ordinal);
        Assert.Contains(option, error, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_DepthsFromTheDeckConcrete_OneLayerAndSaid()
    {
        foreach (var file in Directory.EnumerateFiles(Case()))
        {
            File.Copy(file, Path.Combine(_folder, Path.GetFileName(file)));
        }

        var json = Path.Combine(_folder, "deck.json");
        File.WriteAllText(
            json,
            File.ReadAllText(json)
                .Replace(
                    "\"depthsFrom\": \"present-surface\"",
                    "\"depthsFrom\": \"deck-concrete\"",
                    StringComparison.Ordinal
                )
        );

        var (code, output, error) = Run(_folder, "--format", "json");

        Assert.Equal(ExitCodes.Done, code);
        Assert.Contains("DL2031", error, StringComparison.Ordinal);
        var root = JsonDocument.Parse(output).RootElement;
        Assert.Contains(
            root.GetProperty("diagnostics").EnumerateArray(),
            d => d.GetProperty("code").GetString() == "DL2031"
        );
        Assert.False(root.GetProperty("cores")[0].TryGetProperty("overlay", out _));
    }

    private static void Holds(
        JsonElement core,
        double years,
        double surface,
        double overlay,
        double deck,
        double old
    )
    {
        Assert.Equal(years + 20.5, core.GetProperty("age_yr").GetDouble(), 1e-9);
        Assert.Equal(
            years,
            core.GetProperty("overlay").GetProperty("ageAtCoring_yr").GetDouble(),
            0.02
        );
        Within(core.GetProperty("surfaceChloride"), surface);
        Within(core.GetProperty("overlay").GetProperty("diffusionCoefficient"), overlay);
        Within(core.GetProperty("diffusionCoefficient"), deck);
        Within(core.GetProperty("oldSurfaceChloride"), old);
    }

    private static void Within(JsonElement estimate, double truth)
    {
        Assert.InRange(
            truth,
            estimate.GetProperty("lower95").GetDouble(),
            estimate.GetProperty("upper95").GetDouble()
        );
        Assert.InRange(estimate.GetProperty("value").GetDouble(), 0.8 * truth, 1.25 * truth);
    }

    private static IEnumerable<string> Codes(JsonElement core) =>
        core.GetProperty("flags").EnumerateArray().Select(f => f.GetProperty("code").GetString()!);

    private static string Case([System.Runtime.CompilerServices.CallerFilePath] string path = "") =>
        Path.Combine(Path.GetDirectoryName(path)!, "Cases", "overlaid-deck");

    private static (int Code, string Output, string Error) Run(string path, params string[] options)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = CommandShell.Run(["fit", path, .. options], output, error);
        return (code, output.ToString(), error.ToString());
    }
}
