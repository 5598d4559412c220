using System.Globalization;
using DeckLife.Quantities;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Tests.Quantities;

/// <summary>Quantities as the trade writes them. Factors are exact definitions (inch 25.4 mm, pound 0.45359237 kg, yard 0.9144 m).</summary>
public class QuantityTextTests
{
    private static readonly string[] Cultures = ["en-US", "de-DE", "tr-TR", "fr-FR", "fa-IR", ""];

    [Theory]
    [InlineData("2.5 in", 63.5)]
    [InlineData("2.5in.", 63.5)]
    [InlineData("2.5 inches", 63.5)]
    [InlineData("2.5\"", 63.5)]
    [InlineData("2.5″", 63.5)]
    [InlineData("1 1/4 in", 31.75)]
    [InlineData("1-1/4\"", 31.75)]
    [InlineData("1-1/4 in.", 31.75)]
    [InlineData("1 - 1/4 in", 31.75)]
    [InlineData("1¼ in", 31.75)]
    [InlineData("1\u00A01/4\u00A0in", 31.75)]
    [InlineData("¾\"", 19.05)]
    [InlineData("3/4 in", 19.05)]
    [InlineData("15/16 in", 23.8125)]
    [InlineData("1⁄2 in", 12.7)]
    [InlineData("0.5 ft", 152.4)]
    [InlineData("1'-3\"", 381)]
    [InlineData("1' 3 1/2\"", 393.7)]
    [InlineData("2 ft 6 in", 762)]
    [InlineData("30 mm", 30)]
    [InlineData("30mm", 30)]
    [InlineData("3 cm", 30)]
    [InlineData("0.03 m", 30)]
    [InlineData("2,5 in", 63.5)]
    [InlineData("3e1 mm", 30)]
    [InlineData(" 30  mm ", 30)]
    public void Parse_Depth_InMillimetres(string text, double mm) =>
        Assert.Equal(mm, Depth.Parse(text).Millimetres, 1e-9);

    [Theory]
    [InlineData("2.5")]
    [InlineData("in")]
    [InlineData("")]
    [InlineData("2.5 inn")]
    [InlineData("2.5 yd")]
    [InlineData("2 5 in")]
    [InlineData("1,250 mm")]
    [InlineData("1 1/3 in")]
    [InlineData("1 5/4 in")]
    [InlineData("1 1/4 mm")]
    [InlineData("-2 in")]
    [InlineData("NaN in")]
    [InlineData("∞ in")]
    [InlineData("1e999 in")]
    [InlineData("2-Jan in")]
    [InlineData("2.5 in in")]
    [InlineData("2.5 in 3 mm")]
    [InlineData("0x10 mm")]
    [InlineData("1 1/4 1/4 in")]
    public void TryParse_NoDepth_SaysWhy(string text)
    {
        Assert.False(Depth.TryParse(text, out _, out var problem));
        Assert.Contains(text.Trim(), problem, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => Depth.Parse(text));
    }

    [Theory]
    [InlineData("30 mm2/yr", 30)]
    [InlineData("30 mm²/yr", 30)]
    [InlineData("30 mm^2/yr", 30)]
    [InlineData("30 mm2 per year", 30)]
    [InlineData("0.05 in2/yr", 32.258)]
    [InlineData("0.05 in²/year", 32.258)]
    [InlineData("0.05 sq in/yr", 32.258)]
    [InlineData("1e-12 m2/s", 31.5576)]
    [InlineData("1E-12 m²/s", 31.5576)]
    [InlineData("1 x 10^-12 m2/s", 31.5576)]
    [InlineData("1×10⁻¹² m²/s", 31.5576)]
    [InlineData("1e-8 cm2/s", 31.5576)]
    [InlineData("1,5e-12 m2/s", 47.3364)]
    public void Parse_DiffusionCoefficient_InSquareMillimetresPerYear(string text, double value) =>
        Assert.Equal(value, DiffusionCoefficient.Parse(text).SquareMillimetresPerYear, 1e-9);

    [Theory]
    [InlineData("0 mm2/yr")]
    [InlineData("-1 mm2/yr")]
    [InlineData("30 mm/yr")]
    [InlineData("30")]
    public void TryParse_NoDiffusionCoefficient_Refused(string text) =>
        Assert.False(DiffusionCoefficient.TryParse(text, out _, out _));

    [Theory]
    [InlineData("25 yr", 25)]
    [InlineData("25 years", 25)]
    [InlineData("90 d", 90 / 365.25)]
    [InlineData("90 days", 90 / 365.25)]
    [InlineData("6 months", 0.5)]
    [InlineData("28 weeks", 28 * 7 / 365.25)]
    public void Parse_Age_InYears(string text, double value) =>
        Assert.Equal(value, Age.Parse(text).Years, 1e-12);

    [Theory]
    [InlineData("20 °C", 20)]
    [InlineData("20 C", 20)]
    [InlineData("68 °F", 20)]
    [InlineData("293.15 K", 20)]
    [InlineData("-5 degC", -5)]
    [InlineData("−5 °C", -5)]
    public void Parse_Temperature_InCelsius(string text, double value) =>
        Assert.Equal(value, Temperature.Parse(text).Celsius, 1e-9);

    [Theory]
    [InlineData("1.2 lb/yd3", 0.711931705509)]
    [InlineData("1.2 lb/cy", 0.711931705509)]
    [InlineData("1.2 lb/yd³", 0.711931705509)]
    [InlineData("1.2 lbs/cu yd", 0.711931705509)]
    [InlineData("1.2 pcy", 0.711931705509)]
    [InlineData("0.7 kg/m3", 0.7)]
    [InlineData("0.7 kg/m³", 0.7)]
    public void Parse_ChlorideByVolume_InKilograms(string text, double value) =>
        Assert.Equal(value, ChlorideContent.Parse(text).KilogramsPerCubicMetre, 1e-11);

    [Theory]
    [InlineData("0.4 % of binder", ChlorideBasis.BinderMass, 1.6)]
    [InlineData("0.4 percent of binder", ChlorideBasis.BinderMass, 1.6)]
    [InlineData("0.4 % by mass of binder", ChlorideBasis.BinderMass, 1.6)]
    [InlineData("0.05 % of concrete", ChlorideBasis.ConcreteMass, 1.2)]
    [InlineData("500 ppm", ChlorideBasis.ConcreteMass, 1.2)]
    [InlineData("1.2 kg/m3", ChlorideBasis.ConcreteVolume, 1.2)]
    public void TryToContent_EachBasis_ByItsOwnMix(string text, ChlorideBasis basis, double kg)
    {
        Assert.True(
            QuantityText.TryParseStatedChloride(
                text,
                ChlorideExtraction.AcidSoluble,
                out var stated,
                out _
            )
        );
        Assert.Equal(basis, stated.Basis);

        // 2400 kg/m3 of concrete and 400 kg/m3 of binder: 0.05 % is 1.2 kg/m3, 0.4 % is 1.6 kg/m3.
        Assert.True(stated.TryToContent(new ConcreteMix(2400, 400), out var content, out _));
        Assert.Equal(kg, content.KilogramsPerCubicMetre, 1e-12);
        var back = StatedChloride.FromContent(
            content,
            stated.Unit,
            new ConcreteMix(2400, 400),
            stated.Extraction
        );
        Assert.Equal(stated.Value, back.Value, 1e-12);
    }

    [Theory]
    [InlineData("0.4 % of binder", "binder content")]
    [InlineData("0.05 % of concrete", "density")]
    [InlineData("500 ppm", "density")]
    public void TryToContent_MixUnknown_SaysWhichIsMissing(string text, string missing)
    {
        Assert.True(QuantityText.TryParseStatedChloride(text, default, out var stated, out _));
        Assert.False(stated.TryToContent(ConcreteMix.Unknown, out _, out var problem));
        Assert.Contains(missing, problem, StringComparison.Ordinal);
        Assert.False(ChlorideContent.TryParse(text, out _, out _));
    }

    [Theory]
    [InlineData("0.4 %", "% of concrete")]
    [InlineData("0.4 % of cement", "fly ash")]
    [InlineData("0.4 % NaCl", "salt, not chloride")]
    [InlineData("120 % of binder", "at most the whole")]
    [InlineData("0.4", "missing")]
    public void TryParseStatedChloride_OpenQuestion_Refused(string text, string says)
    {
        Assert.False(QuantityText.TryParseStatedChloride(text, default, out _, out var problem));
        Assert.Contains(says, problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("-350 mV CSE", -350)]
    [InlineData("-0.35 V CSE", -350)]
    [InlineData("−350 mV vs. CSE", -350)]
    [InlineData("-350 mV (Cu/CuSO4)", -350)]
    [InlineData("-350 mV vs copper-copper sulfate", -350)]
    public void Parse_PotentialAgainstCse_AsIs(string text, double value) =>
        Assert.Equal(value, Potential.Parse(text).MillivoltsCse, 1e-9);

    [Fact]
    public void TryParsePotential_OtherElectrode_OnlyWithItsStatedOffset()
    {
        Assert.False(QuantityText.TryParsePotential("-250 mV SCE", null, out _, out var problem));
        Assert.Contains("SCE", problem, StringComparison.Ordinal);
        var calomel = new ReferenceElectrode("SCE", -75);

        // E(CSE) = E(SCE) + E of SCE against CSE.
        Assert.True(QuantityText.TryParsePotential("-250 mV SCE", calomel, out var value, out _));
        Assert.Equal(-325, value.MillivoltsCse, 1e-9);
        Assert.True(QuantityText.TryParsePotential("-0.25 V", calomel, out value, out _));
        Assert.Equal(-325, value.MillivoltsCse, 1e-9);
        Assert.False(QuantityText.TryParsePotential("-250 mV CSE", calomel, out _, out _));
        Assert.False(QuantityText.TryParsePotential("-250 mV Ag/AgCl", calomel, out _, out _));
        Assert.False(QuantityText.TryParsePotential("-250 mV", null, out _, out _));
        Assert.False(QuantityText.TryParsePotential("-250", calomel, out _, out _));
    }

    [Theory]
    [InlineData("1,234", DecimalMark.Point, 1234)]
    [InlineData("1,234", DecimalMark.Comma, 1.234)]
    [InlineData("1,234,567", DecimalMark.Unknown, 1234567)]
    [InlineData("1.234.567,5", DecimalMark.Unknown, 1234567.5)]
    [InlineData("1'234.5", DecimalMark.Unknown, 1234.5)]
    [InlineData("0,250", DecimalMark.Unknown, 0.25)]
    [InlineData("0,25", DecimalMark.Unknown, 0.25)]
    [InlineData("1.234", DecimalMark.Unknown, 1.234)]
    [InlineData("5.", DecimalMark.Unknown, 5)]
    [InlineData(".5", DecimalMark.Unknown, 0.5)]
    [InlineData(",5", DecimalMark.Unknown, 0.5)]
    [InlineData("+5", DecimalMark.Unknown, 5)]
    public void TryParse_Number_BySurroundings(string text, DecimalMark mark, double value)
    {
        Assert.True(
            NumberText.TryParse(text, mark, false, out var found, out var problem),
            problem
        );
        Assert.Equal(value, found);
    }

    [Theory]
    [InlineData("1,234", DecimalMark.Unknown)]
    [InlineData("1,234", DecimalMark.Mixed)]
    [InlineData("1.234", DecimalMark.Mixed)]
    [InlineData("1.234", DecimalMark.Comma)]
    [InlineData("1,23,456", DecimalMark.Point)]
    [InlineData("1.2.3", DecimalMark.Unknown)]
    [InlineData("--5", DecimalMark.Unknown)]
    [InlineData("5-", DecimalMark.Unknown)]
    [InlineData("١٢", DecimalMark.Unknown)]
    [InlineData("#DIV/0!", DecimalMark.Unknown)]
    public void TryParse_NumberWithTwoReadingsOrNone_Refused(string text, DecimalMark mark) =>
        Assert.False(NumberText.TryParse(text, mark, true, out _, out _));

    [Property(MaxTest = 300)]
    public Property WriteThenParse_EveryUnitAndCulture_Same()
    {
        var cases =
            from dimension in Gen.Elements(
                Dimension.Length,
                Dimension.Time,
                Dimension.Diffusion,
                Dimension.Area,
                Dimension.Volume,
                Dimension.Density
            )
            from unit in Gen.Elements(Units.Of(dimension).ToArray())
            from culture in Gen.Elements(Cultures)
            from mantissa in Gen.Choose(1, 999_999_999)
            from power in Gen.Choose(-12, 3)
            select (unit, culture, value: mantissa * Math.Pow(10, power));
        return Prop.ForAll(
            cases.ToArbitrary(),
            c =>
            {
                var before = CultureInfo.CurrentCulture;
                try
                {
                    CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(c.culture);
                    var text = QuantityText.Write(c.value, c.unit);
                    Assert.True(
                        QuantityText.TryParseMeasure(
                            text,
                            c.unit.Dimension,
                            out var back,
                            out var problem
                        ),
                        problem
                    );
                    Assert.Equal(c.value, back, 4e-16 * c.value);
                }
                finally
                {
                    CultureInfo.CurrentCulture = before;
                }
            }
        );
    }

    [Property(MaxTest = 300)]
    public Property WriteThenParse_EveryChlorideUnitAndCulture_Same()
    {
        var mix = new ConcreteMix(2322.7, 390.4);
        var cases =
            from unit in Gen.Elements(Units.Of(Dimension.Chloride).ToArray())
            from culture in Gen.Elements(Cultures)
            from grams in Gen.Choose(1, 50_000_000)
            select (unit, culture, kg: grams * 1e-6);
        return Prop.ForAll(
            cases.ToArbitrary(),
            c =>
            {
                var before = CultureInfo.CurrentCulture;
                try
                {
                    CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(c.culture);
                    var stated = StatedChloride.FromContent(
                        ChlorideContent.FromKilogramsPerCubicMetre(c.kg),
                        c.unit,
                        mix,
                        ChlorideExtraction.AcidSoluble
                    );
                    Assert.True(
                        QuantityText.TryParseStatedChloride(
                            stated.ToString(),
                            default,
                            out var back,
                            out var problem
                        ),
                        problem
                    );
                    Assert.True(back.TryToContent(mix, out var content, out _));
                    Assert.Equal(c.kg, content.KilogramsPerCubicMetre, 1e-15 * c.kg);
                }
                finally
                {
                    CultureInfo.CurrentCulture = before;
                }
            }
        );
    }

    [Property(MaxTest = 2000)]
    public void TryParse_AnyText_ValueOrProblem(string? text)
    {
        var given = text ?? "";
        foreach (var suffix in new[] { "", " in", " mm2/yr", " % of binder", "'-1\"" })
        {
            AssertValueOrProblem(given + suffix);
        }
    }

    public static TheoryData<string> Hostile =>
        new(
            new string('1', 100_000) + " in",
            new string(' ', 100_000) + "1 in",
            string.Concat(Enumerable.Repeat("1 ", 50_000)) + "in",
            string.Concat(Enumerable.Repeat("1×10", 50_000)),
            new string('½', 50_000)
        );

    [Theory]
    [MemberData(nameof(Hostile))]
    public void TryParse_LongHostileText_ValueOrProblem(string text) => AssertValueOrProblem(text);

    private static void AssertValueOrProblem(string text)
    {
        Assert.Equal(Depth.TryParse(text, out _, out var problem), problem is null);
        Assert.Equal(Age.TryParse(text, out _, out problem), problem is null);
        Assert.Equal(DiffusionCoefficient.TryParse(text, out _, out problem), problem is null);
        Assert.Equal(Temperature.TryParse(text, out _, out problem), problem is null);
        Assert.Equal(
            QuantityText.TryParseStatedChloride(text, default, out _, out problem),
            problem is null
        );
        Assert.Equal(
            QuantityText.TryParsePotential(text, null, out _, out problem),
            problem is null
        );
    }
}
