using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using Xunit;

namespace DeckLife.Data.Tests.Json;

/// <summary>The tree that messages point into, and the check of its shapes, on keys made up for it.</summary>
public class JsonTreeTests
{
    private static readonly JsonKey[] Keys =
    [
        new("name", JsonShape.Text, "Its name.", true),
        new("story", JsonShape.Text, "Words."),
        new("length", JsonShape.Quantity, "Its length.", Example: "5 ft"),
        new("spread", JsonShape.Uncertain, "With its spread.", Example: "6 yr"),
        new("guess", JsonShape.Assumable, "May be assumed."),
        new("kind", JsonShape.Choice, "One of two.", Choices: ["bare", "coated"]),
        new("share", JsonShape.Fraction, "A share."),
        new("count", JsonShape.Whole, "A count."),
        new("factor", JsonShape.Number, "A factor."),
        new("day", JsonShape.Date, "A day."),
        new("price", JsonShape.Price, "A price.", Example: "4 per ft2"),
        new(
            "part",
            JsonShape.Object,
            "A part.",
            Keys: [new("depth", JsonShape.Quantity, "Depth.", true, Example: "1 in")]
        ),
        new(
            "parts",
            JsonShape.Objects,
            "Parts.",
            Keys: [new("depth", JsonShape.Quantity, "Depth.", true)]
        ),
        new("words", JsonShape.TextMap, "Words."),
    ];

    private static (JsonItem? Root, ImmutableArray<Diagnostic> Problems) Read(string text)
    {
        var problems = new ProblemList("a.json");
        var root = JsonTree.ReadObject(Encoding.UTF8.GetBytes(text), "a.json", problems);
        return (root, problems.ToImmutable());
    }

    private static ImmutableArray<Diagnostic> Check(string members)
    {
        var problems = new ProblemList("a.json");
        var root = JsonTree.Read(Encoding.UTF8.GetBytes($"{{ {members} }}"), problems)!;
        JsonCheck.Check(root, Keys, "", problems);
        return problems.ToImmutable();
    }

    [Fact]
    public void Read_CommentsAndTrailingCommas_AreLeftAsideAndLinesKept()
    {
        var (root, problems) = Read(
            "// first\n{\n  \"a\": [ 1, true, false, null, ],\n  /* more */ \"b\": { \"c\": \"d\" },\n}\n"
        );

        Assert.Empty(problems);
        Assert.Equal(2, root!.Line);
        Assert.Equal((3, JsonValueKind.Array), (root["a"]!.Line, root["a"]!.Kind));
        Assert.Equal(["1", "true", "false", "null"], root["a"]!.Items.Select(i => i.Text));
        Assert.Equal((4, "d"), (root["b"]!["c"]!.Line, root["b"]!["c"]!.Text));
        Assert.Equal(
            ("{ … }", "[ … ]", "d"),
            (root.Show(), root["a"]!.Show(), root["b"]!["c"]!.Show())
        );
        Assert.Null(root["z"]);
    }

    [Theory]
    [InlineData("{\n \"a\": 1\n \"b\": 2 }", "DL1101", 3)]
    [InlineData("{\n \"a\": tru }", "DL1101", 2)]
    [InlineData("{} {}", "DL1101", 1)]
    [InlineData("{\n \"a\": \"\\ud800\" }", "DL1101", 2)]
    [InlineData("\n[ 1 ]", "DL1105", 2)]
    [InlineData("\"text\"", "DL1105", 1)]
    public void Read_WhatIsNoObject_OneErrorAtItsLine(string text, string code, int line)
    {
        var (root, problems) = Read(text);

        Assert.Null(root);
        var problem = Assert.Single(problems);
        Assert.Equal((code, line), (problem.Code, problem.Row));
        Assert.DoesNotContain("LineNumber", problem.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Path:", problem.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_KeyTwice_TheFirstStaysAndTheSecondIsAnError()
    {
        var (root, problems) = Read("{ \"a\": 1,\n \"a\": 2 }");

        Assert.Equal("1", root!["a"]!.Text);
        Assert.Equal(("DL1102", 2, "a"), (problems[0].Code, problems[0].Row, problems[0].Column));
    }

    [Theory]
    [InlineData("\"story\": \"\"")]
    [InlineData("\"length\": \"5 ft\"")]
    [InlineData("\"spread\": \"6 yr\"")]
    [InlineData("\"spread\": { \"mean\": \"6 yr\", \"cov\": 0.3, \"distribution\": \"normal\" }")]
    [InlineData("\"guess\": \"5 ft\"")]
    [InlineData("\"guess\": { \"assumed\": \"5 ft\", \"source\": \"usual\" }")]
    [InlineData("\"kind\": \"bare\"")]
    [InlineData("\"share\": 0.1")]
    [InlineData("\"share\": \"10 %\"")]
    [InlineData("\"count\": 3")]
    [InlineData("\"factor\": 3.5")]
    [InlineData("\"day\": \"2031-06-15\"")]
    [InlineData("\"price\": \"4 per ft2\"")]
    [InlineData("\"part\": { \"depth\": \"1 in\" }")]
    [InlineData("\"parts\": [ { \"depth\": \"1 in\" }, { \"depth\": \"2 in\" } ]")]
    [InlineData("\"parts\": []")]
    [InlineData("\"words\": { \"any\": \"text\" }")]
    public void Check_ValueOfItsShape_Nothing(string member) =>
        Assert.Empty(Check($"\"name\": \"x\", {member}"));

    [Theory]
    [InlineData("\"name\": \" \"", "DL1105", "name", "not empty")]
    [InlineData("\"name\": 5", "DL1105", "name", "a text in quotes")]
    [InlineData("\"length\": 5", "DL1125", "length", "\"5 ft\"")]
    [InlineData("\"spread\": 5", "DL1125", "spread", "\"6 yr\"")]
    [InlineData("\"guess\": 5", "DL1125", "guess", "\"2 in\"")]
    [InlineData("\"price\": 5", "DL1125", "price", "\"4 per ft2\"")]
    [InlineData("\"length\": \"\"", "DL1105", "length", "\"5 ft\"")]
    [InlineData("\"length\": true", "DL1105", "length", "\"5 ft\"")]
    [InlineData("\"spread\": { \"mean\": \"6 yr\" }", "DL1104", "spread.cov", "25 %")]
    [InlineData(
        "\"spread\": { \"mean\": \"6 yr\", \"cov\": 0.3, \"sd\": 1 }",
        "DL1103",
        "spread.sd",
        "mean, cov, distribution"
    )]
    [InlineData("\"guess\": { \"source\": \"usual\" }", "DL1104", "guess.assumed", "3915 lb/yd3")]
    [InlineData("\"kind\": \"bear\"", "DL1106", "kind", "Did you mean 'bare'?")]
    [InlineData("\"kind\": \"something else\"", "DL1106", "kind", "bare, coated")]
    [InlineData("\"kind\": 5", "DL1105", "kind", "one of bare, coated")]
    [InlineData("\"share\": true", "DL1105", "share", "10 %")]
    [InlineData("\"count\": \"3\"", "DL1105", "count", "a whole number")]
    [InlineData("\"factor\": \"3\"", "DL1105", "factor", "a number")]
    [InlineData("\"day\": 2031", "DL1105", "day", "2031-06-15")]
    [InlineData("\"part\": []", "DL1105", "part", "an object { … }")]
    [InlineData("\"part\": {}", "DL1104", "part.depth", "\"1 in\"")]
    [InlineData("\"parts\": {}", "DL1105", "parts", "a list of objects")]
    [InlineData("\"parts\": [ {}, { \"depth\": \"1 in\" } ]", "DL1104", "parts[0].depth", "\"…\"")]
    [InlineData(
        "\"parts\": [ { \"depth\": \"1 in\" }, 5 ]",
        "DL1105",
        "parts[1]",
        "an object { … }"
    )]
    [InlineData("\"words\": { \"any\": 5 }", "DL1105", "words.any", "a text")]
    [InlineData("\"words\": []", "DL1105", "words", "an object { … }")]
    [InlineData("\"lenght\": \"5 ft\"", "DL1103", "lenght", "Did you mean 'length'?")]
    [InlineData("\"unheard-of\": 1", "DL1103", "unheard-of", "the top")]
    [InlineData(
        "\"part\": { \"depth\": \"1 in\", \"zz\": 1 }",
        "DL1103",
        "part.zz",
        "Allowed are depth."
    )]
    public void Check_ValueOfAnotherShape_SaysWhatIsMeant(
        string member,
        string code,
        string path,
        string says
    )
    {
        var isName = member.StartsWith("\"name\"", StringComparison.Ordinal);
        var problem = Assert.Single(Check(isName ? member : $"\"name\": \"x\", {member}"));

        Assert.Equal((code, path, 1), (problem.Code, problem.Column, problem.Row));
        Assert.Contains(says, problem.Text, StringComparison.Ordinal);
        if (says.StartsWith("bare", StringComparison.Ordinal))
        {
            Assert.DoesNotContain("Did you mean", problem.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Check_RequiredKeyMissing_SaidWithItsMeaning() =>
        Assert.Contains(
            "Its name.",
            Assert
                .Single(Check("\"factor\": 1"), p => p is { Code: "DL1104", Column: "name" })
                .Text,
            StringComparison.Ordinal
        );

    [Fact]
    public void Flags_Written_CodeAndTextEach()
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            json.WriteStartObject();
            FlagsJson.Write(json, [DiagnosticCatalogue.ContentZero.With("0")]);
            json.WriteEndObject();
        }

        using var read = JsonDocument.Parse(stream.ToArray());
        var flag = Assert.Single(read.RootElement.GetProperty("flags").EnumerateArray());
        Assert.Equal("DL1032", flag.GetProperty("code").GetString());
        Assert.Equal(
            DiagnosticCatalogue.ContentZero.With("0").Text,
            flag.GetProperty("text").GetString()
        );
    }
}
