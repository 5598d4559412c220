using System.Runtime.CompilerServices;
using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Data.Studies;
using Json.Schema;
using Xunit;

namespace DeckLife.Data.Tests.Studies;

/// <summary>The schema is held beside the reader: an editor that follows it writes files that can be read.</summary>
public class StudySchemaTests
{
    private const string Small = """
        {
          "study": "small", "seed": 4, "section": { "ageing": "none" },
          "inputs": [
            { "input": "cover", "unit": "in", "distribution": "normal", "mean": 2, "standardDeviation": 0.1, "lower": 0.5 },
            { "input": "surfaceChloride", "unit": "lb/yd3", "value": 12 },
            { "input": "diffusionCoefficient", "unit": "in2/yr", "distribution": "lognormal", "mean": 0.05, "standardDeviation": 0.025 },
            { "input": "chlorideThreshold", "unit": "lb/yd3", "value": 2.0 }
          ],
          "outputs": [ { "output": "timeToInitiation", "horizon_yr": 15 } ],
          "methods": [ { "method": "swings" } ]
        }
        """;

    private static readonly JsonSchema Schema = JsonSchema.FromText(StudySchema.Write());

    public static TheoryData<string> Examples =>
        [.. Directory.GetFiles(Demo("studies"), "*.json").Select(f => Path.GetFileName(f)!)];

    [Theory]
    [MemberData(nameof(Examples))]
    public void Schema_OfTheExamples_HoldsThem(string name)
    {
        var text = File.ReadAllText(Path.Combine(Demo("studies"), name));
        Assert.True(IsValid(text));
    }

    [Theory]
    [InlineData(
        "\"distribution\": \"normal\", \"mean\": 2, \"standardDeviation\": 0.1, \"lower\": 0.5",
        "\"distribution\": \"gamma\", \"shape\": 40, \"scale\": 0.05"
    )]
    [InlineData(
        "\"distribution\": \"normal\", \"mean\": 2, \"standardDeviation\": 0.1, \"lower\": 0.5",
        "\"distribution\": \"weibull\", \"mean\": 2, \"coefficientOfVariation\": 0.05, \"lower\": 0.1"
    )]
    [InlineData(
        "\"distribution\": \"normal\", \"mean\": 2, \"standardDeviation\": 0.1, \"lower\": 0.5",
        "\"distribution\": \"gumbel\", \"location\": 2, \"scale\": 0.05, \"lower\": 0.5"
    )]
    [InlineData(
        "\"distribution\": \"normal\", \"mean\": 2, \"standardDeviation\": 0.1, \"lower\": 0.5",
        "\"distribution\": \"beta\", \"shapeP\": 2, \"shapeQ\": 3, \"lower\": 1, \"upper\": 3"
    )]
    [InlineData(
        "\"distribution\": \"normal\", \"mean\": 2, \"standardDeviation\": 0.1, \"lower\": 0.5",
        "\"distribution\": \"beta\", \"mean\": 2, \"standardDeviation\": 0.2, \"lower\": 1, \"upper\": 3"
    )]
    [InlineData(
        "\"distribution\": \"normal\", \"mean\": 2, \"standardDeviation\": 0.1, \"lower\": 0.5",
        "\"distribution\": \"triangular\", \"lower\": 1, \"mode\": 2, \"upper\": 3"
    )]
    [InlineData(
        "\"distribution\": \"normal\", \"mean\": 2, \"standardDeviation\": 0.1, \"lower\": 0.5",
        "\"distribution\": \"uniform\", \"lower\": 1, \"upper\": 3"
    )]
    [InlineData(
        "\"distribution\": \"normal\", \"mean\": 2, \"standardDeviation\": 0.1, \"lower\": 0.5",
        "\"distribution\": \"uniform\", \"mean\": 2, \"standardDeviation\": 0.2"
    )]
    [InlineData(
        "\"distribution\": \"normal\", \"mean\": 2, \"standardDeviation\": 0.1, \"lower\": 0.5",
        "\"distribution\": \"empirical\", \"values\": [ 1.9, 2.0, 2.2 ]"
    )]
    [InlineData(
        "\"distribution\": \"lognormal\", \"mean\": 0.05, \"standardDeviation\": 0.025",
        "\"distribution\": \"lognormal\", \"logMean\": -3, \"logStandardDeviation\": 0.2"
    )]
    [InlineData(
        "\"distribution\": \"lognormal\", \"mean\": 0.05, \"standardDeviation\": 0.025",
        "\"distribution\": \"lognormal\", \"median\": 0.05, \"coefficientOfVariation\": 0.2"
    )]
    [InlineData(
        "{ \"method\": \"swings\" }",
        "{ \"method\": \"morris\", \"design\": \"radial\", \"repetitions\": 4 }"
    )]
    [InlineData(
        "{ \"method\": \"swings\" }",
        "{ \"method\": \"sobol\", \"points\": 64, \"source\": \"random\", \"groups\": [ [ \"cover\" ] ] }"
    )]
    [InlineData("{ \"method\": \"swings\" }", "{ \"method\": \"shapley\", \"points\": 64 }")]
    [InlineData(
        "{ \"output\": \"timeToInitiation\", \"horizon_yr\": 15 }",
        "{ \"output\": \"initiatedBy\", \"age_yr\": 15 }"
    )]
    public void Schema_OfWhatTheReaderTakes_TakesIt(string old, string now)
    {
        var text = Changed(old, now);
        var read = StudyFileReader.Read(text);
        Assert.True(read.Study is not null, string.Join('\n', read.Problems));
        Assert.True(IsValid(text));
    }

    [Theory]
    [InlineData("\"seed\": 4", "\"seed\": 4.5")]
    [InlineData("\"seed\": 4,", "")]
    [InlineData("\"seed\": 4", "\"seeds\": 4")]
    [InlineData("\"ageing\": \"none\"", "\"ageing\": \"some\"")]
    [InlineData("\"section\": { \"ageing\": \"none\" },", "")]
    [InlineData("\"unit\": \"in\"", "\"unit\": \"inch\"")]
    [InlineData("\"unit\": \"in\"", "\"unit\": \"kg/m3\"")]
    [InlineData("\"distribution\": \"normal\"", "\"distribution\": \"gaussian\"")]
    [InlineData("\"standardDeviation\": 0.1", "\"sd\": 0.1")]
    [InlineData("\"value\": 12", "\"value\": \"12\"")]
    [InlineData("\"horizon_yr\": 15", "\"age_yr\": 15")]
    [InlineData("{ \"method\": \"swings\" }", "{ \"method\": \"morris\", \"design\": \"radial\" }")]
    [InlineData("{ \"method\": \"swings\" }", "{ \"method\": \"monteCarlo\", \"draws\": 0 }")]
    public void Schema_OfWhatTheReaderRefuses_RefusesIt(string old, string now)
    {
        var text = Changed(old, now);
        Assert.Null(StudyFileReader.Read(text).Study);
        Assert.False(IsValid(text));
    }

    // The same validator on the deck's schema and the demonstration deck.
    [Fact]
    public void DeckSchema_OfTheDemonstrationDeck_HoldsIt()
    {
        var schema = JsonSchema.FromText(DeckSchema.Write());
        var text = File.ReadAllText(Path.Combine(Demo("quillmarsh-crossing"), "deck.json"));
        Assert.True(schema.Evaluate(Parse(text)).IsValid);
    }

    private static string Changed(string old, string now)
    {
        Assert.Contains(old, Small, StringComparison.Ordinal);
        return Small.Replace(old, now, StringComparison.Ordinal);
    }

    private static bool IsValid(string text) => Schema.Evaluate(Parse(text)).IsValid;

    private static JsonElement Parse(string text) =>
        JsonDocument
            .Parse(
                text,
                new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true }
            )
            .RootElement;

    private static string Demo(string name, [CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "../../../demo-data", name);
}
