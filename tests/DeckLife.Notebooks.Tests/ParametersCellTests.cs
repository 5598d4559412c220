using Xunit;

namespace DeckLife.Notebooks.Tests;

public class ParametersCellTests
{
    private const string Source = """
        // where the deck lies
        string folder = "demo";   // a path
        double limit = 0.1;
        int draws = 200;
        ulong seed = 1;
        bool us = true;
        var other = new List<int>();
        """;

    [Fact]
    public void Read_Declarations_NamesAndTypesOfSimpleOnes() =>
        Assert.Equal(
            ["string folder", "double limit", "int draws", "ulong seed", "bool us"],
            ParametersCell.Read(Source).Select(p => $"{p.TypeName} {p.Name}")
        );

    [Fact]
    public void Fill_Values_ReplacedAndCommentsKept()
    {
        var filled = ParametersCell.Fill(
            Source,
            new Dictionary<string, string>
            {
                ["folder"] = "a\"; System.IO.File.Delete(\"x\"); //",
                ["limit"] = "-2.5e-3",
                ["draws"] = "-7",
                ["us"] = "false",
            }
        );

        var read = ParametersCell.Read(filled).ToDictionary(p => p.Name, p => p.Value);
        // One declaration stays one declaration: the quote in the value can't end its literal.
        Assert.Equal("\"a\\\"; System.IO.File.Delete(\\\"x\\\"); //\"", read["folder"]);
        Assert.Equal("-0.0025d", read["limit"]);
        Assert.Equal("-7", read["draws"]);
        Assert.Equal("1", read["seed"]);
        Assert.Equal("false", read["us"]);
        Assert.Contains("// a path", filled, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("limit", "NaN")]
    [InlineData("limit", "1,5")]
    [InlineData("limit", "")]
    [InlineData("draws", "2.5")]
    [InlineData("draws", "99999999999")]
    [InlineData("seed", "-1")]
    [InlineData("us", "yes")]
    public void Fill_ValueOfAnotherType_Error(string name, string value)
    {
        var e = Assert.Throws<NotebookException>(() =>
            ParametersCell.Fill(Source, new Dictionary<string, string> { [name] = value })
        );
        Assert.Contains($"Parameter '{name}'", e.Message, StringComparison.Ordinal);
    }
}
