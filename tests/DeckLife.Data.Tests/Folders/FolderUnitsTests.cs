using System.Runtime.CompilerServices;
using DeckLife.Data.Folders;
using DeckLife.Data.Studies;
using DeckLife.Diagnostics;
using Xunit;

namespace DeckLife.Data.Tests.Folders;

/// <summary>Messages come in the units that a folder, or a study, is written in.</summary>
public sealed class FolderUnitsTests : IDisposable
{
    private readonly string folder = Directory
        .CreateTempSubdirectory("decklife-folder-units-")
        .FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData("8 in", true)]
    [InlineData("0.67 ft", true)]
    [InlineData("8 1/2 \\\"", true)]
    [InlineData("203 mm", false)]
    public void Read_ThicknessOfTheSlab_SaysTheUnitsOfMessages(string thickness, bool isUs)
    {
        Copy($"\"deckThickness\": \"{thickness}\"");

        var read = DeckFolder.Read(folder);

        Assert.Equal(isUs ? MessageUnits.UsCustomary : MessageUnits.Canonical, read.Units);
    }

    [Fact]
    public void Read_SliceBelowTheSlab_SaidInInches()
    {
        Copy("\"deckThickness\": \"3 in\"");

        var read = DeckFolder.Read(folder);

        var below = read.Problems.First(p => p.Code == "DL1118");
        Assert.Contains("the deck is 3 in thick", below.In(read.Units), StringComparison.Ordinal);
        Assert.Contains("the deck is 76.2 mm thick", below.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_StudyInInches_ItsRangesAreToldInInches()
    {
        var read = StudyFileReader.Read(
            """
            { "study": "s", "seed": 1, "section": { "ageing": "none" },
              "inputs": [
                { "input": "cover", "unit": "in", "value": -1 },
                { "input": "surfaceChloride", "unit": "lb/yd3", "distribution": "lognormal", "mean": 12, "coefficientOfVariation": 0.2 },
                { "input": "diffusionCoefficient", "unit": "in2/yr", "value": 0.05 },
                { "input": "initialChloride", "unit": "lb/yd3", "value": 0.2 } ],
              "outputs": [ { "output": "contentAtBar", "age_yr": 30 } ],
              "methods": [ { "method": "monteCarlo", "draws": 10 } ] }
            """
        );

        var outside = read.Problems.Single(p => p.Code == "DL6004");
        Assert.Contains(
            "cover is -1 in; allowed is ",
            outside.In(read.Units),
            StringComparison.Ordinal
        );
        Assert.Contains("cover is -25.4 mm; allowed is ", outside.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("mm", outside.In(read.Units), StringComparison.Ordinal);
    }

    private void Copy(string thickness)
    {
        foreach (var file in Directory.EnumerateFiles(Inputs()))
        {
            var text = File.ReadAllText(file)
                .Replace("\"deckThickness\": \"8 in\"", thickness, StringComparison.Ordinal);
            File.WriteAllText(Path.Combine(folder, Path.GetFileName(file)), text);
        }
    }

    private static string Inputs([CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "..", "Inputs", "minimal-deck");
}
