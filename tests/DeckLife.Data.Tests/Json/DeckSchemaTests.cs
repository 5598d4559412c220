using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Data.Tests.Folders;
using Json.Schema;
using Xunit;

namespace DeckLife.Data.Tests.Json;

/// <summary>The schema of deck.json is held beside its reader: an editor takes and refuses what the reader does.</summary>
public class DeckSchemaTests
{
    private static JsonSchema Schema => JsonSchema.FromText(DeckSchema.Write());
    private static readonly string Text = File.ReadAllText(
        Path.Combine(DeckFolderTests.Inputs, "minimal-deck", "deck.json")
    );

    private static bool IsValid(string from, string to)
    {
        Assert.Contains(from, Text, StringComparison.Ordinal);
        using var deck = JsonDocument.Parse(
            Text.Replace(from, to, StringComparison.Ordinal),
            new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip }
        );
        return Schema.Evaluate(deck.RootElement).IsValid;
    }

    [Theory]
    [InlineData("\"60 yr\"", "\"60 yr\"")]
    [InlineData("\"10 %\"", "0.1")]
    [InlineData("{ \"mean\": \"1.6 lb/yd3\", \"cov\": 0.3 }", "\"1.6 lb/yd3\"")]
    [InlineData("\"horizon\"", "\"concrete\": { \"density\": \"2400 kg/m3\" }, \"horizon\"")]
    [InlineData(
        "\"horizon\"",
        "\"concrete\": { \"density\": { \"assumed\": \"2400 kg/m3\" } }, \"horizon\""
    )]
    [InlineData("\"acid-soluble\" }", "\"acid-soluble\", \"columns\": { \"Probe\": \"core\" } }")]
    public void Schema_OfWhatTheReaderTakes_TakesIt(string from, string to) =>
        Assert.True(IsValid(from, to));

    [Theory]
    [InlineData("\"horizon\": \"60 yr\",", "")]
    [InlineData("\"horizon\"", "\"horizn\": 1, \"horizon\"")]
    [InlineData("\"60 yr\"", "60")]
    [InlineData("\"10 %\"", "true")]
    [InlineData("\"bare\"", "\"black\"")]
    [InlineData("\"2031-06-15\"", "2031")]
    [InlineData("\"seed\": 7", "\"seed\": 7.5")]
    [InlineData("\"seed\": 7", "\"seed\": \"7\"")]
    [InlineData("\"ageingExponent\": 0.3", "\"ageingExponent\": \"0.3\"")]
    [InlineData("{ \"name\": \"do nothing\" }", "\"do nothing\"")]
    [InlineData("{ \"name\": \"do nothing\" }", "{ }")]
    [InlineData("{ \"type\": \"bare\", \"diameter\": \"5/8 in\" }", "\"bare\"")]
    [InlineData("{ \"mean\": \"1.6 lb/yd3\", \"cov\": 0.3 }", "{ \"mean\": \"1.6 lb/yd3\" }")]
    [InlineData("{ \"mean\": \"1.6 lb/yd3\", \"cov\": 0.3 }", "{ \"mean\": 1.6, \"cov\": 0.3 }")]
    [InlineData("\"acid-soluble\" }", "\"acid-soluble\", \"columns\": { \"Probe\": 5 } }")]
    [InlineData("\"price\": \"4 per ft2\"", "\"price\": 4")]
    public void Schema_OfWhatTheReaderRefuses_RefusesIt(string from, string to) =>
        Assert.False(IsValid(from, to));
}
