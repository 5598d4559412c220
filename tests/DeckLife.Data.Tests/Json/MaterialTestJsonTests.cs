using DeckLife.Data.Folders;
using DeckLife.Data.Tests.Folders;
using Xunit;

namespace DeckLife.Data.Tests.Json;

public sealed class MaterialTestJsonTests : IDisposable
{
    private const string Stated = "\"coefficient\": { \"mean\": \"8 mm2/yr\", \"cov\": 0.4 },";

    private const string Specimen =
        "{ \"appliedVolts\": 30, \"temperature\": \"22 degC\", \"thickness\": \"50 mm\", \"penetration\": \"15 mm\", \"duration\": \"1 d\" }";

    private const string Relation =
        "\"relation\": { \"citation\": \"invented for this test\", \"coefficientAtOne\": \"0.5 mm2/yr\", \"exponent\": 0.4, \"sdOfLn\": 0.6, \"least\": 300, \"greatest\": 6000, \"age\": \"28 d\" }";

    private static readonly string Minimal = Path.Combine(DeckFolderTests.Inputs, "minimal-deck");

    private readonly string folder = Directory.CreateTempSubdirectory("decklife-test").FullName;

    public MaterialTestJsonTests()
    {
        foreach (var file in Directory.GetFiles(Minimal))
        {
            File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        }
    }

    public void Dispose() => Directory.Delete(folder, true);

    [Fact]
    public void Read_BulkDiffusionOfTwoSpecimens_MeanAndScatterAtTheReferenceAge()
    {
        var result = With(
            "\"test\": { \"bulkDiffusion\": { \"method\": \"ASTM C1556-22\", \"ageAtStart\": \"28 d\", \"immersion\": \"90 d\", \"specimens\": [ { \"coefficient\": \"20 mm2/yr\" }, { \"coefficient\": \"30 mm2/yr\" } ] } },"
        );

        var material = Assert.Single(result.Deck!.Materials);
        // 90 d over the integral of (90 d/t)^0.3 from 28 to 118 d, by quadrature (SciPy 1.10): 0.9124455.
        Assert.Equal(22.81114, material.DiffusionCoefficient.Mean, 1e-5);
        Assert.Equal(
            Math.Sqrt(50) / 25,
            material.DiffusionCoefficient.CoefficientOfVariation,
            1e-12
        );
        Assert.Contains(
            result.Deck.Assumptions,
            a => a.Text.Contains("ASTM C1556-22, 2 specimens", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Read_MigrationTest_SimplifiedExpressionOfNtBuild492ByHand()
    {
        var result = With(
            $"\"test\": {{ \"cov\": 0.5, \"migration\": {{ \"citation\": \"invented for this test\", \"age\": \"28 d\", \"specimens\": [ {Specimen} ] }} }},"
        );

        var material = Assert.Single(result.Deck!.Materials);
        // 0.0239e-12 · 295 · 50 / (28 · 24) · (15 − 0.0238 √(295 · 50 · 15/28)) m²/s, and (28/90)^0.3 to the reference age.
        Assert.Equal(150.267, material.DiffusionCoefficient.Mean, 1e-3);
        Assert.Equal(0.5, material.DiffusionCoefficient.CoefficientOfVariation);
    }

    [Fact]
    public void Read_ChargeThroughARelation_MeanOfTheLognormal()
    {
        var result = With(
            $"\"test\": {{ \"indicator\": {{ \"what\": \"charge passed [C]\", \"value\": 1000, {Relation} }} }},"
        );

        var material = Assert.Single(result.Deck!.Materials);
        Assert.Equal(
            0.5 * Math.Pow(1000, 0.4) * Math.Exp(0.18) * Math.Pow(28.0 / 90, 0.3),
            material.DiffusionCoefficient.Mean,
            1e-9
        );
    }

    [Theory]
    // One specimen has no scatter.
    [InlineData(
        "\"test\": { \"bulkDiffusion\": { \"method\": \"m\", \"ageAtStart\": \"28 d\", \"immersion\": \"90 d\", \"specimens\": [ { \"coefficient\": \"20 mm2/yr\" } ] } },",
        "DL1126",
        "one specimen has no scatter"
    )]
    // A migration coefficient is no diffusion coefficient unless somebody says so.
    [InlineData(
        "\"test\": { \"cov\": 0.5, \"migration\": { \"citation\": \" \", \"age\": \"28 d\", \"specimens\": [ "
            + Specimen
            + " ] } },",
        "DL1126",
        "cite it"
    )]
    // Outside what the relation was fitted for.
    [InlineData(
        "\"test\": { \"indicator\": { \"what\": \"charge passed [C]\", \"value\": 100, "
            + Relation
            + " } },",
        "DL1126",
        "lies outside 300 to 6000"
    )]
    [InlineData("\"test\": { },", "DL1111", "bulkDiffusion")]
    [InlineData("", "DL1111", "coefficient or test")]
    [InlineData(
        Stated
            + "\"test\": { \"indicator\": { \"what\": \"charge passed [C]\", \"value\": 1000, "
            + Relation
            + " } },",
        "DL1111",
        "coefficient or test"
    )]
    public void Read_TestThatGivesNoCoefficient_Refused(string keys, string code, string words)
    {
        var result = With(keys);

        Assert.Null(result.Deck);
        Assert.Contains(
            result.Problems,
            p => p.Code == code && p.Text.Contains(words, StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("{ \"exposure\": \"sealed\", \"source\": \"forms stay\" }", null)]
    [InlineData(
        "{ \"exposure\": \"salted\", \"surfaceChloride\": \"2 kg/m3\", \"source\": \"cores from below\" }",
        null
    )]
    [InlineData("{ \"exposure\": \"salted\" }", "DL1104")]
    [InlineData("{ \"exposure\": \"sealed\", \"surfaceChloride\": \"2 kg/m3\" }", "DL1108")]
    public void Read_Underside_SealedOrSalted(string soffit, string? code)
    {
        var result = With(
            Stated,
            "  \"materials\": [",
            $"  \"soffit\": {soffit},\n  \"materials\": ["
        );

        if (code is not null)
        {
            Assert.Contains(result.Problems, p => p.Code == code);
            return;
        }

        Assert.True(result.Deck is not null, string.Join("\n", result.Problems));
        Assert.Equal(
            soffit.Contains("salted", StringComparison.Ordinal) ? 2.0 : null,
            result.Deck.Soffit!.SurfaceChloride?.Mean
        );
    }

    private DeckFolderResult With(string diffusion, params string[] fromTo)
    {
        var path = Path.Combine(folder, "deck.json");
        var text = File.ReadAllText(path);
        string[] all = [Stated, diffusion, .. fromTo];
        for (var n = 0; n < all.Length; n += 2)
        {
            Assert.Contains(all[n], text, StringComparison.Ordinal);
            text = text.Replace(all[n], all[n + 1], StringComparison.Ordinal);
        }

        File.WriteAllText(path, text);
        return DeckFolder.Read(folder);
    }
}
