using System.Collections.Immutable;
using System.Text;
using DeckLife.Data.Json;
using DeckLife.Data.Networks;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Network.Decks;
using Xunit;

namespace DeckLife.Data.Tests.Networks;

/// <summary>network.json alone: limits from both sides, every value where it belongs, nothing said twice.</summary>
public class NetworkFileTests
{
    private const string Text = """
        {
          "name": "invented network",
          "program": { "firstYear": 2032, "years": 4, "budget": 300000, "lastYear": 2045 },
          "exposureClasses": [
            { "name": "valley", "surfaceChloride": "6 kg/m3", "diffusionCoefficient": "16 mm2/yr", "source": "invented" }
          ],
          "common": { "horizon": "20 yr" },
          "decks": [ { "folder": "d1" }, { "folder": "d2", "exposureClass": "valley" } ]
        }
        """;

    private static (NetworkDefinition? Network, ImmutableArray<Diagnostic> Problems) With(
        params string[] fromTo
    )
    {
        var text = Text;
        for (var n = 0; n < fromTo.Length; n += 2)
        {
            Assert.Contains(fromTo[n], text, StringComparison.Ordinal);
            text = text.Replace(fromTo[n], fromTo[n + 1], StringComparison.Ordinal);
        }

        var problems = new ProblemList("network.json");
        var root = JsonTree.ReadObject(Encoding.UTF8.GetBytes(text), "network.json", problems)!;
        JsonCheck.Check(root, NetworkKeys.All, "", problems);
        return (new NetworkFileReader(root, problems).Read(), problems.ToImmutable());
    }

    private static NetworkDefinition Network(params string[] fromTo)
    {
        var (network, problems) = With(fromTo);
        Assert.True(problems.IsEmpty, string.Join('\n', problems.Select(p => p.Text)));
        return network!;
    }

    private static void OnlyProblem(string code, string column, params string[] fromTo) =>
        Assert.Equal(
            (code, column),
            With(fromTo).Problems.Select(p => (p.Code, p.Column)).Single()
        );

    [Fact]
    public void Read_WhatIsNotGiven_IsTheUsual()
    {
        var network = Network();

        Assert.Equal((2032, 2045), (network.FirstYear, network.LastYear));
        Assert.Equal([300000L, 300000, 300000, 300000], network.Budgets.AsEnumerable());
        Assert.Equal([2032, 2033, 2034, 2035], network.StartYears.AsEnumerable());
        Assert.Equal((1UL, 20, 256), (network.Seed, network.Draws, network.Points));
        Assert.Null(network.MostClosuresAYear);
        Assert.Null(network.MostClosuresACorridor);
        Assert.Null(network.DamagedAtMost);
        Assert.Equal(2032, network.DamagedAtMostFrom);
        var kind = Assert.Single(network.Classes);
        Assert.Equal((0.5, 0.0), (kind.WithinDeckShare, kind.BackgroundKgPerM3));
        Assert.Equal([1.0, 1], network.Members.Select(m => m.Weight));
        Assert.All(network.Members, m => Assert.Empty(m.Strategies));
        Assert.Equal([null, "valley"], network.Members.Select(m => m.ExposureClass));
    }

    [Fact]
    public void Read_WhatIsGiven_IsWhereItBelongs()
    {
        var network = Network(
            "\"lastYear\": 2045",
            """
            "lastYear": 2045, "startEvery": 3, "closures": { "perYear": 2, "perCorridorAndYear": 1 },
            "budgets": [ { "year": 2033, "budget": 5 }, { "year": 2035, "budget": 0 } ],
            "condition": { "damagedAtMost": "8 %", "from": 2040 }
            """,
            "\"common\"",
            "\"analysis\": { \"seed\": 9, \"draws\": 30, \"points\": 16 }, \"common\"",
            "\"source\": \"invented\"",
            "\"source\": \"invented\", \"withinDeckShare\": 0.2, \"background\": \"0.1 kg/m3\"",
            "{ \"folder\": \"d1\" }",
            """
            { "folder": "d1", "corridor": "A1", "latitude": 45.5, "longitude": -122.5, "weight": 2.5,
              "strategies": [ { "name": "overlay" }, { "name": "patch" } ] }
            """
        );

        Assert.Equal([300000L, 5, 300000, 0], network.Budgets.AsEnumerable());
        Assert.Equal([2032, 2035], network.StartYears.AsEnumerable());
        Assert.Equal((2, 1), (network.MostClosuresAYear, network.MostClosuresACorridor));
        Assert.Equal((0.08, 2040), (network.DamagedAtMost, network.DamagedAtMostFrom));
        Assert.Equal((9UL, 30, 16), (network.Seed, network.Draws, network.Points));
        var kind = Assert.Single(network.Classes);
        Assert.Equal((0.2, 0.1), (kind.WithinDeckShare, kind.BackgroundKgPerM3));
        Assert.Equal((6.0, 16.0), (kind.SurfaceChloride.Mean, kind.DiffusionCoefficient.Mean));
        var member = network.Members[0];
        Assert.Equal(
            ("A1", 45.5, -122.5, 2.5),
            (member.Corridor, member.LatitudeDeg, member.LongitudeDeg, member.Weight)
        );
        Assert.Equal(["overlay", "patch"], member.Strategies.AsEnumerable());
    }

    // {0} stands for the value; the limits are those that the messages state.
    [Theory]
    [InlineData(
        "\"firstYear\": 2032",
        "\"firstYear\": {0}",
        "program.firstYear",
        "2000|2042",
        "1899|2301"
    )]
    [InlineData("\"years\": 4", "\"years\": {0}", "program.years", "1|14", "0|61")]
    [InlineData(
        "\"budget\": 300000",
        "\"budget\": {0}",
        "program.budget",
        "0|9223372036854",
        "-1|9223372036855"
    )]
    [InlineData(
        "\"years\": 4",
        "\"years\": 4, \"startEvery\": {0}",
        "program.startEvery",
        "1|60",
        "0|61"
    )]
    [InlineData(
        "\"years\": 4",
        "\"years\": 4, \"closures\": {{ \"perYear\": {0} }}",
        "program.closures.perYear",
        "0|1000000",
        "-1|1000001"
    )]
    [InlineData(
        "\"years\": 4",
        "\"years\": 4, \"closures\": {{ \"perCorridorAndYear\": {0} }}",
        "program.closures.perCorridorAndYear",
        "0|1000000",
        "-1|1000001"
    )]
    [InlineData(
        "\"years\": 4",
        "\"years\": 4, \"condition\": {{ \"damagedAtMost\": {0}, \"from\": 2040 }}",
        "program.condition.damagedAtMost",
        "0|1",
        "-0.1|1.1"
    )]
    [InlineData(
        "\"years\": 4",
        "\"years\": 4, \"condition\": {{ \"damagedAtMost\": 0.1, \"from\": {0} }}",
        "program.condition.from",
        "2032|2045",
        "2031|2046"
    )]
    [InlineData(
        "\"years\": 4",
        "\"years\": 4, \"budgets\": [ {{ \"year\": {0}, \"budget\": 1 }} ]",
        "program.budgets[0].year",
        "2032|2035",
        "2031|2036"
    )]
    [InlineData(
        "\"years\": 4",
        "\"years\": 4, \"budgets\": [ {{ \"year\": 2033, \"budget\": {0} }} ]",
        "program.budgets[0].budget",
        "0",
        "-1"
    )]
    [InlineData(
        "\"common\"",
        "\"analysis\": {{ \"draws\": {0} }}, \"common\"",
        "analysis.draws",
        "20|10000",
        "19|10001"
    )]
    [InlineData(
        "\"common\"",
        "\"analysis\": {{ \"points\": {0} }}, \"common\"",
        "analysis.points",
        "16|65536",
        "15|65537"
    )]
    [InlineData(
        "\"common\"",
        "\"analysis\": {{ \"seed\": {0} }}, \"common\"",
        "analysis.seed",
        "0",
        "-1"
    )]
    [InlineData(
        "\"16 mm2/yr\"",
        "\"{0}\"",
        "exposureClasses[0].diffusionCoefficient",
        "0.01 mm2/yr|10000 mm2/yr",
        "0.009 mm2/yr|10001 mm2/yr"
    )]
    [InlineData(
        "\"6 kg/m3\"",
        "\"{0}\"",
        "exposureClasses[0].surfaceChloride",
        "0.1 kg/m3|60 kg/m3",
        "0 kg/m3|60.1 kg/m3"
    )]
    [InlineData(
        "\"name\": \"valley\"",
        "\"name\": \"valley\", \"withinDeckShare\": {0}",
        "exposureClasses[0].withinDeckShare",
        "0|1",
        "-0.1|1.1"
    )]
    [InlineData(
        "\"folder\": \"d1\"",
        "\"folder\": \"d1\", \"latitude\": {0}",
        "decks[0].latitude",
        "-90|90",
        "-90.1|90.1"
    )]
    [InlineData(
        "\"folder\": \"d1\"",
        "\"folder\": \"d1\", \"longitude\": {0}",
        "decks[0].longitude",
        "-180|180",
        "-180.1|180.1"
    )]
    [InlineData(
        "\"folder\": \"d1\"",
        "\"folder\": \"d1\", \"weight\": {0}",
        "decks[0].weight",
        "0|1000",
        "-0.1|1000.1"
    )]
    public void Read_ValueAtALimit_TakenAndBeyondItRefusedAtItsKey(
        string from,
        string to,
        string path,
        string taken,
        string refused
    )
    {
        string[] Change(string value) =>
            [from, string.Format(System.Globalization.CultureInfo.InvariantCulture, to, value)];

        Assert.All(taken.Split('|'), v => Assert.NotNull(Network(Change(v))));
        Assert.All(refused.Split('|'), v => OnlyProblem("DL1108", path, Change(v)));
    }

    // The condition is looked at from the program's last year on, for at most 150 years from its first.
    [Theory]
    [InlineData(2035, true)]
    [InlineData(2034, false)]
    [InlineData(2182, true)]
    [InlineData(2183, false)]
    public void Read_LastYear_AfterTheProgramAndNotForEver(int last, bool taken)
    {
        var change = FormattableString.Invariant($"\"lastYear\": {last}");
        if (taken)
        {
            Assert.Equal(last, Network("\"lastYear\": 2045", change).LastYear);
        }
        else
        {
            OnlyProblem("DL7007", "program.lastYear", "\"lastYear\": 2045", change);
        }
    }

    [Fact]
    public void Read_YearWithTwoBudgets_ErrorNotTheLastOne() =>
        OnlyProblem(
            "DL7007",
            "program.budgets[1].year",
            "\"years\": 4",
            "\"years\": 4, \"budgets\": [ { \"year\": 2033, \"budget\": 1 }, { \"year\": 2033, \"budget\": 2 } ]"
        );

    [Fact]
    public void Read_TwoClassesOfOneName_ErrorNotTheFirstOne() =>
        OnlyProblem(
            "DL1110",
            "exposureClasses[1].name",
            "\"exposureClasses\": [",
            "\"exposureClasses\": [ { \"name\": \"valley\", \"surfaceChloride\": \"9 kg/m3\", \"diffusionCoefficient\": \"9 mm2/yr\", \"source\": \"invented\" },"
        );

    [Theory]
    [InlineData(".")]
    [InlineData("..")]
    [InlineData("../d1")]
    [InlineData("a/b")]
    [InlineData("a\\\\b")]
    [InlineData("c:a")]
    public void Read_FolderThatIsAPath_Error(string folder) =>
        OnlyProblem("DL1108", "decks[0].folder", "\"folder\": \"d1\"", $"\"folder\": \"{folder}\"");

    // Refused as a folder's name, and for a character that can't be seen.
    [Fact]
    public void Read_FolderWithAControlCharacter_BothErrors()
    {
        var problems = With("\"folder\": \"d1\"", "\"folder\": \"a\\u0007b\"").Problems;

        Assert.Equal(["DL1105", "DL1108"], problems.Select(p => p.Code).Order());
        Assert.All(problems, p => Assert.Equal("decks[0].folder", p.Column));
    }

    [Theory]
    [InlineData("d2")]
    [InlineData("D2")]
    public void Read_FolderListedTwice_ErrorAtTheSecond(string folder) =>
        OnlyProblem("DL7002", "decks[1].folder", "\"folder\": \"d1\"", $"\"folder\": \"{folder}\"");
}
