using System.Runtime.CompilerServices;
using DeckLife.Data.Ingress;
using DeckLife.Transport;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Data.Tests.Ingress;

public class IngressCaseReaderTests
{
    private const string Valid = """
        {
          "layers": [ { "name": "deck", "thickness": "200 mm", "diffusion": { "coefficient": "30 mm2/yr" }, "initialChloride": "0.1 kg/m3" } ],
          "surface": { "law": "constant", "content": "6 kg/m3" },
          "bottom": "sealed",
          "depths": [ "50 mm", "2 in" ], "times": [ "20 yr", "40 yr" ] // every depth at every time
        }
        """;

    [Fact]
    public void Read_ValidCase_QueriesAreTimesThenDepths()
    {
        var item = IngressCaseReader.Read(Valid).Case!;

        Assert.Equal([20.0, 20, 40, 40], item.Queries.Select(q => q.Time.Years));
        Assert.Equal([50.0, 50.8, 50, 50.8], item.Queries.Select(q => q.Depth.Millimetres));
        Assert.Equal("2 in", item.DepthTexts[1]);
        Assert.Equal("kg/m3", item.ContentUnit);
        Assert.IsType<ConstantDiffusion>(item.Section.Layers[0].Diffusion);
    }

    [Theory]
    // One line changed in the valid case, and what the message must name.
    [InlineData("\"thickness\"", "\"thicknes\"", "DL3021", "thickness")]
    [InlineData("\"bottom\": \"sealed\"", "\"bottom\": \"seeled\"", "DL3023", "bottom")]
    [InlineData("\"bottom\": \"sealed\",", "", "DL3022", "bottom")]
    [InlineData("\"200 mm\"", "200", "DL3023", "layers[0].thickness")]
    [InlineData("\"200 mm\"", "\"200\"", "DL3023", "layers[0].thickness")]
    [InlineData("\"200 mm\"", "\"0 mm\"", "DL3023", "greater than 0")]
    [InlineData("\"30 mm2/yr\"", "\"-30 mm2/yr\"", "DL3023", "coefficient")]
    [InlineData("\"30 mm2/yr\"", "\"3,000 mm2/yr\"", "DL3023", "coefficient")]
    [InlineData("\"constant\"", "\"constnt\"", "DL3023", "constant")]
    [InlineData("\"6 kg/m3\"", "\"0.4 % of binder\"", "DL3023", "surface.content")]
    [InlineData("\"2 in\"", "\"200.1 mm\"", "DL3008", "200.1")]
    [InlineData("\"0.1 kg/m3\"", "null", "DL3023", "initialChloride")]
    [InlineData(
        "\"coefficient\": \"30 mm2/yr\"",
        "\"coefficient\": \"30 mm2/yr\", \"referenceAge\": \"28 d\"",
        "DL3023",
        "ageingExponent"
    )]
    [InlineData(
        "\"coefficient\": \"30 mm2/yr\"",
        "\"coefficient\": \"30 mm2/yr\", \"ageingExponent\": 0.3, \"referenceAge\": \"28 d\"",
        "DL3022",
        "ageAtStart"
    )]
    [InlineData(
        "\"name\": \"deck\",",
        "\"name\": \"deck\", \"activation\": \"4800 K\", \"referenceTemperature\": \"20 °C\",",
        "DL3004",
        "deck"
    )]
    [InlineData(
        "\"initialChloride\"",
        "\"isotherm\": { \"law\": \"freundlich\", \"waterContent\": 0.08, \"alpha\": 1.05, \"beta\": 0.01 }, \"initialChloride\"",
        "DL3023",
        "from 0.05 to 1"
    )]
    [InlineData("\"bottom\"", "\"bottom\": \"open\", \"bottom\"", "DL3020", "JSON")]
    [InlineData("{\n", "[", "DL3020", "JSON")]
    public void Read_OneThingWrong_NamesIt(string old, string changed, string code, string named)
    {
        var text = Valid.ReplaceLineEndings("\n");
        Assert.Contains(old, text, StringComparison.Ordinal);
        var reading = IngressCaseReader.Read(text.Replace(old, changed, StringComparison.Ordinal));

        Assert.Null(reading.Case);
        var problem = reading.Problems.FirstOrDefault(p => p.Code == code);
        Assert.True(
            problem is not null,
            string.Join("; ", reading.Problems.Select(p => p.Code + p.Text))
        );
        Assert.Contains(named, problem.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_SeveralThingsWrong_AllAreSaid()
    {
        var reading = IngressCaseReader.Read(
            """
            { "layers": [ { "nam": "deck", "thickness": "8 hands", "diffusion": {} } ], "surface": { "law": "table", "times": [ "3 yr", "1 yr" ], "contents": [ "2 kg/m3", "3 kg/m3" ] }, "queries": [ [ "5 yr" ] ] }
            """
        );
        string[] expected =
        [
            "'nam'",
            "'name' is missing",
            "8 hands",
            "'coefficient' is missing",
            "'initialChloride' is missing",
            "must rise",
            "'bottom' is missing",
            "queries[0]",
        ];

        foreach (var part in expected)
        {
            Assert.Contains(reading.Problems, p => p.Text.Contains(part, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Read_UnknownKey_NamesTheNearestOne()
    {
        var reading = IngressCaseReader.Read(
            Valid.Replace("\"surface\"", "\"surfase\"", StringComparison.Ordinal)
        );
        Assert.Contains(
            reading.Problems,
            p => p.Text.Contains("Did you mean 'surface'?", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Read_EveryLaw_OfTheTenCases()
    {
        var files = Directory.GetFiles(Folder(), "*.json");
        Assert.Equal(10, files.Length);
        foreach (var file in files)
        {
            var reading = IngressCaseReader.Read(File.ReadAllText(file));
            Assert.True(
                reading.Case is not null,
                file + ": " + string.Join("; ", reading.Problems.Select(p => p.Text))
            );
        }
    }

    [Theory]
    [InlineData("{ \"law\": \"linear\", \"rate\": \"0.25 kg/m3/yr\" }", 8, 2)]
    [InlineData("{ \"law\": \"linear\", \"content\": \"6 kg/m3\", \"plateau\": \"15 yr\" }", 10, 4)]
    [InlineData("{ \"law\": \"square-root\", \"rate\": \"1.5 kg/m3/yr0.5\" }", 4, 3)]
    [InlineData(
        "{ \"law\": \"square-root\", \"content\": \"6 kg/m3\", \"plateau\": \"16 yr\" }",
        4,
        3
    )]
    [InlineData(
        "{ \"law\": \"exponential\", \"content\": \"6 kg/m3\", \"timeConstant\": \"10 yr\" }",
        10,
        3.7927233529713
    )]
    [InlineData(
        "{ \"law\": \"table\", \"times\": [ \"0 yr\", \"10 yr\" ], \"contents\": [ \"0 kg/m3\", \"5 kg/m3\" ] }",
        4,
        2
    )]
    [InlineData(
        "{ \"law\": \"constant\", \"content\": \"6 kg/m3\", \"leakFraction\": 0.25 }",
        4,
        1.5
    )]
    [InlineData(
        "{ \"law\": \"sealed\", \"content\": \"6 kg/m3\", \"leakFraction\": 0.25 }",
        4,
        1.5
    )]
    [InlineData(
        "{ \"law\": \"seasonal\", \"content\": \"6 kg/m3\", \"months\": [ 12, \"Jan\", \"february\" ], \"offContent\": \"1 kg/m3\", \"timeZeroMonth\": \"Jan\" }",
        0.5,
        1
    )]
    public void Read_SurfaceLaw_HasItsContent(string law, double years, double expected)
    {
        var text = Valid.Replace(
            "{ \"law\": \"constant\", \"content\": \"6 kg/m3\" }",
            law,
            StringComparison.Ordinal
        );
        var reading = IngressCaseReader.Read(text);

        Assert.True(
            reading.Case is not null,
            string.Join("; ", reading.Problems.Select(p => p.Text))
        );
        Assert.Equal(expected, reading.Case.Section.Surface.ContentAt(years), 1e-12);
    }

    [Property(MaxTest = 300)]
    public Property Read_TextCutAnywhere_IsRefusedWithoutAnException() =>
        Prop.ForAll(
            Arb.From(Gen.Choose(0, Valid.Length - 2)),
            length => IngressCaseReader.Read(Valid[..length]).Case is null
        );

    private static string Folder([CallerFilePath] string path = "") =>
        Path.Combine(Path.GetDirectoryName(path)!, "../../../reference-checks/ingress-cases");
}
