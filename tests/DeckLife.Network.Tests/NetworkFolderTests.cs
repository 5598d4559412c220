using DeckLife.Data.Networks;
using DeckLife.Diagnostics;
using Xunit;

namespace DeckLife.Network.Tests;

public class NetworkFolderTests
{
    [Fact]
    public void ReadDeck_CommonFacts_HoldWhereTheDeckGivesNone()
    {
        using var small = new SmallNetwork();
        small.Write(
            "d2/deck.json",
            """{ "name": "Own", "surveyDate": "2030-06-01", "firstSalt": { "age": "30 yr" }, "area": "300 m2", "deckThickness": "240 mm", "cover": { "stated": "50 mm" } }"""
        );
        var reading = small.Read();

        Assert.DoesNotContain(reading.Problems, p => p.Severity == Severity.Error);
        var own = NetworkFolder.ReadDeck(reading, 1).Deck!;
        var common = NetworkFolder.ReadDeck(reading, 0).Deck!;
        Assert.Equal(240, own.Thickness.Millimetres);
        Assert.Equal(210, common.Thickness.Millimetres);
        Assert.Equal(2, own.Strategies.Length);
        Assert.Empty(own.Cores);
    }

    [Fact]
    public void ReadDeck_WrongCommonFact_IsReportedAtTheNetworksFile()
    {
        using var small = new SmallNetwork(2, "\"removalTolerance\": \"1 parsec\",");

        var read = NetworkFolder.ReadDeck(small.Read(), 0);

        Assert.Null(read.Deck);
        var problem = Assert.Single(read.Problems, p => p.Severity == Severity.Error);
        Assert.Equal("network.json", problem.File);
        Assert.Equal("removalTolerance", problem.Column);
    }

    [Fact]
    public void ReadDeck_NoCoresAndNoExposureClass_IsAnErrorThatSaysSo()
    {
        using var small = new SmallNetwork(2);
        var reading = small.Read();
        reading = reading with
        {
            Network = reading.Network! with
            {
                Members = [.. reading.Network.Members.Select(m => m with { ExposureClass = null })],
            },
        };

        var record = NetworkShards.Project(reading, 0);

        Assert.Contains("chlorides.csv", record.Failure, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"decks\": [ { \"folder\": \"a\" }, { \"folder\": \"a\" } ]", "DL7002")]
    [InlineData("\"decks\": [ { \"folder\": \"../outside\" } ]", "DL1108")]
    [InlineData("\"decks\": [], \"deks\": []", "DL1103")]
    public void Read_BrokenList_IsRefusedWithItsCode(string decks, string code)
    {
        using var small = new SmallNetwork(1);
        small.Write(
            "network.json",
            $$"""{ "name": "n", "program": { "firstYear": 2032, "years": 3, "budget": 1, "lastYear": 2045 }, {{decks}} }"""
        );

        var reading = small.Read();

        Assert.Contains(reading.Problems, p => p.Code == code);
        Assert.Equal(
            reading.Problems.Any(p => p.Severity == Severity.Error),
            reading.Network is null
        );
    }

    [Fact]
    public void Read_LastYearWithinTheProgram_IsRefused()
    {
        using var small = new SmallNetwork(1);
        small.Write(
            "network.json",
            """{ "name": "n", "program": { "firstYear": 2032, "years": 10, "budget": 1, "lastYear": 2035 }, "decks": [] }"""
        );

        Assert.Contains(small.Read().Problems, p => p.Code == "DL7007");
    }

    [Fact]
    public void Read_DeckBesideTheList_IsNamed()
    {
        using var small = new SmallNetwork(2);
        small.Write("copy of d1/deck.json", "{}");

        Assert.Contains(
            small.Read().Problems,
            p => p.Code == "DL7001" && p.Text.Contains("copy of d1", StringComparison.Ordinal)
        );
    }
}
