using System.Globalization;
using System.Text.Json;
using DeckLife.Data.Ingress;
using DeckLife.Quantities;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Data.Tests.Ingress;

public class IngressResultWriterTests
{
    private static readonly IngressResult Result = new()
    {
        Rows =
        [
            new IngressRow(
                Age.FromYears(20),
                Depth.FromInches(2),
                ChlorideContent.FromKilogramsPerCubicMetre(1.234),
                "deck, old"
            ),
        ],
        ErrorEstimateKgPerM3 = 1e-5,
        MassBalanceError = 1e-12,
        IsConverged = true,
    };

    [Theory]
    [InlineData("en-US")]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    public void ToEachForm_AnyCulture_SameText(string culture)
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
        try
        {
            Assert.Equal(
                "time_yr,depth_mm,chloride_kg_per_m3,layer\n20,50.8,1.234,\"deck, old\"\n",
                IngressResultWriter.ToCsv(Result)
            );
            Assert.Contains(
                "\"chloride_kg_per_m3\": 1.234",
                IngressResultWriter.ToJson(Result),
                StringComparison.Ordinal
            );
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void ToJson_HasTheStatedKeys()
    {
        using var document = JsonDocument.Parse(IngressResultWriter.ToJson(Result));
        var root = document.RootElement;

        Assert.Equal(
            ["rows", "massBalanceError", "errorEstimate_kg_per_m3"],
            root.EnumerateObject().Select(p => p.Name)
        );
        Assert.Equal(
            ["time_yr", "depth_mm", "chloride_kg_per_m3", "layer"],
            root.GetProperty("rows")[0].EnumerateObject().Select(p => p.Name)
        );
    }

    [Fact]
    public void ToText_UnitsOfTheFileBesideTheCanonicalOnes()
    {
        var item = IngressCaseReader
            .Read(
                """
                { "layers": [ { "name": "deck", "thickness": "8 in", "diffusion": { "coefficient": "0.05 in2/yr" }, "initialChloride": "0.2 lb/yd3" } ],
                  "surface": { "law": "constant", "content": "12 lb/yd3" }, "bottom": "sealed", "depths": [ "2 in" ], "times": [ "20 yr" ] }
                """
            )
            .Case!;
        var text = IngressResultWriter.ToText(item, Result);

        Assert.Contains("2 in = 50.8 mm", text, StringComparison.Ordinal);
        Assert.Contains("lb/yd3", text, StringComparison.Ordinal);
        Assert.Contains("1.2340", text, StringComparison.Ordinal);
        Assert.Contains("2.0800", text, StringComparison.Ordinal);
    }

    [Fact]
    public void ToText_Events_AreToldInWords()
    {
        var item = IngressCaseReader
            .Read(
                """
                { "layers": [ { "name": "deck", "thickness": "200 mm", "diffusion": { "coefficient": "30 mm2/yr" }, "initialChloride": "0 kg/m3" } ],
                  "surface": { "law": "constant", "content": "5 kg/m3" }, "bottom": "sealed",
                  "events": [
                    { "at": "15 yr", "surface": { "law": "sealed" } },
                    { "at": "20 yr", "remove": "1 in",
                      "place": { "name": "overlay", "thickness": "50 mm", "diffusion": { "coefficient": "10 mm2/yr" }, "initialChloride": "0 kg/m3" },
                      "surface": { "law": "constant", "content": "5 kg/m3", "leakFraction": 0.2 } } ],
                  "depths": [ "50 mm" ], "times": [ "25 yr" ] }
                """
            )
            .Case!;
        var text = IngressResultWriter.ToText(item, Result);

        Assert.Contains("15 yr: surface sealed\n", text, StringComparison.Ordinal);
        Assert.Contains(
            "20 yr: 25.4 mm removed, 50 mm of overlay placed, leaky surface (0.2 of the content passes)\n",
            text,
            StringComparison.Ordinal
        );
        Assert.Contains("just before it", text, StringComparison.Ordinal);
        Assert.Contains("Mass not accounted for", text, StringComparison.Ordinal);
    }
}
