using System.Text.RegularExpressions;
using DeckLife.Diagnostics;
using Xunit;

namespace DeckLife.Tests.Quantities;

public class MessageTemplateTests
{
    // By hand: 1 lb/yd3 = 0.59327642 kg/m3; 1 in = 25.4 mm; 1 in2 = 645.16 mm2; 1 ft2 = 0.09290304 m2.
    [Theory]
    [InlineData("holds {0:G4} kg/m3 in row {1}", "holds 5.94 lb/yd3 in row 7", 3.524, 7)]
    [InlineData("{0:0.#}-{1:0.#} mm (a)", "0.25-0.75 in (a)", 6.35, 19.05)]
    [InlineData("centre {0:F1} mm; {1:F1} times", "centre 3 in; 1.1 times", 76.2, 1.1)]
    [InlineData(
        "between {0:0.####} and {1}, or {0:G3} to {1:G3} mm2/yr",
        "between 645.16 and 6451.6, or 1 to 10 in2/yr",
        645.16,
        6451.6
    )]
    [InlineData("{0} m2, not {1} m2x", "1000 ft2, not 5 m2x", 92.90304, 5.0)]
    [InlineData("x {0} m, y {1} m lies", "x 100 ft, y 10 ft lies", 30.48, 3.048)]
    [InlineData("{0} mV CSE at {1} m", "-350 mV CSE at 10 ft", -350.0, 3.048)]
    public void In_UsCustomary_QuantitiesConvertedAndNothingElse(
        string format,
        string expected,
        double first,
        double second
    )
    {
        var message = new MessageTemplate(format, first, second);

        Assert.Equal(expected, message.In(MessageUnits.UsCustomary));
        Assert.Equal(
            string.Format(System.Globalization.CultureInfo.InvariantCulture, format, first, second),
            message.In(MessageUnits.Canonical)
        );
    }

    [Fact]
    public void In_MessageWithinAMessageAndNumberAsText_Converted()
    {
        var message = new MessageTemplate(
            "{0} of {1} mm: \"{2}\"",
            new MessageTemplate("at {0:G3} kg/m3", 0.59327642),
            "63.5",
            "5 mm {0} kg/m3"
        );

        Assert.Equal(
            "at 1 lb/yd3 of 2.5 in: \"5 mm {0} kg/m3\"",
            message.In(MessageUnits.UsCustomary)
        );
    }

    [Fact]
    public void Catalogue_EveryMessageWithAUnit_KeepsNoCanonicalUnitInUsCustomaryOnes()
    {
        var seen = 0;
        foreach (var entry in DiagnosticCatalogue.All)
        {
            Assert.DoesNotContain("{{", entry.Format, StringComparison.Ordinal);
            var values = Enumerable.Range(0, 12).Select(i => (object)(1.5 + i)).ToArray();
            var text = entry.With(values).In(MessageUnits.UsCustomary);
            if (Regex.IsMatch(entry.Format, @"\} (kg/m3|mm2/yr|mm|m2|m)\b"))
            {
                seen++;
                Assert.DoesNotMatch(@"\d (kg/m3|mm2/yr|mm|m2|m)\b(?! \()", text);
            }
        }

        Assert.True(seen > 15, $"{seen}");
    }

    [Fact]
    public void Equals_SameEntryAndValues_IsEqual() =>
        Assert.Equal(
            DiagnosticCatalogue.SkinSlice.With("a", 1.0, "b", 2.0, 3.0),
            DiagnosticCatalogue.SkinSlice.With("a", 1.0, "b", 2.0, 3.0)
        );
}
