using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Profiles;
using DeckLife.Quantities;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

public class RoundTripTests
{
    private static readonly ConcreteMix Mix = new(2322.7, 390.4);
    private static readonly string[] Cultures = ["en-US", "de-DE", "tr-TR", "fr-FR", ""];

    private static Gen<CoreProfile> Core(int index) =>
        from slices in Gen.Choose(1, 7)
        from contents in Gen.ArrayOf(Gen.Choose(1, 25_000_000), slices)
        from kinds in Gen.ArrayOf(Gen.Choose(0, 5), slices)
        from age in Gen.Choose(1, 60_000)
        from crack in Gen.Elements(true, false)
        from x in Gen.Choose(-1000, 100_000)
        select new CoreProfile
        {
            Core = $"C-{index}, \"north\"",
            ExposureAge = Age.FromYears(age / 1000.0),
            OnCrack = crack,
            X = x / 100.0,
            Y = x / 1000.0,
            Slices =
            [
                .. contents.Select(
                    (c, i) =>
                        new ChlorideSlice
                        {
                            Top = Depth.FromMillimetres(12.7 * i),
                            Bottom = Depth.FromMillimetres((12.7 * i) + 9.3),
                            Content = ChlorideContent.FromKilogramsPerCubicMetre(c * 1e-6),
                            IsNonDetect = kinds[i] == 0,
                            StandardDeviation = kinds[i] == 1 ? c * 1e-7 : null,
                            Replicates = kinds[i] == 2 ? 3 : 1,
                        }
                ),
            ],
        };

    [Property(MaxTest = 150)]
    public Property WriteThenRead_EveryUnitSeparatorMarkAndCulture_Same()
    {
        var cases =
            from depth in Gen.Elements(Units.Of(Dimension.Length).ToArray())
            from content in Gen.Elements(Units.Of(Dimension.Chloride).ToArray())
            from layout in Gen.Elements(
                (',', false),
                (';', false),
                (';', true),
                ('\t', true),
                ('\t', false)
            )
            from culture in Gen.Elements(Cultures)
            from first in Core(1)
            from second in Core(2)
            select (depth, content, layout, culture, cores: new[] { first, second });
        return Prop.ForAll(
            cases.ToArbitrary(),
            c =>
            {
                var before = CultureInfo.CurrentCulture;
                try
                {
                    CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(c.culture);
                    AssertSame(c.depth, c.content, c.layout.Item1, c.layout.Item2, c.cores);
                }
                finally
                {
                    CultureInfo.CurrentCulture = before;
                }
            }
        );
    }

    private static void AssertSame(
        Unit depth,
        Unit content,
        char separator,
        bool comma,
        CoreProfile[] cores
    )
    {
        var text = new StringWriter();
        new ChlorideTableWriter
        {
            DepthUnit = depth,
            ContentUnit = content,
            Mix = Mix,
            Separator = separator,
            DecimalComma = comma,
        }.Write(cores, text);
        var result = ChlorideTable.Read(
            "written.csv",
            Encoding.UTF8.GetBytes(text.ToString()),
            new ChlorideTableOptions { Mix = Mix }
        );

        var back = ChlorideTableTests.Usable(result).Cores;
        Assert.Equal(cores.Length, back.Length);
        for (var i = 0; i < cores.Length; i++)
        {
            Assert.Equal((cores[i].Core, cores[i].OnCrack), (back[i].Core, back[i].OnCrack));
            Assert.Equal(cores[i].ExposureAge.Years, back[i].ExposureAge.Years, 1e-12);
            Assert.Equal(cores[i].X!.Value, back[i].X!.Value, 1e-9);
            Assert.Equal(cores[i].Slices.Length, back[i].Slices.Length);
            foreach (var (a, b) in cores[i].Slices.Zip(back[i].Slices))
            {
                Assert.Equal(a.Top.Millimetres, b.Top.Millimetres, 1e-12);
                Assert.Equal(a.Bottom.Millimetres, b.Bottom.Millimetres, 1e-12);
                Assert.Equal(
                    a.Content.KilogramsPerCubicMetre,
                    b.Content.KilogramsPerCubicMetre,
                    1e-14
                );
                Assert.Equal(
                    (a.IsNonDetect, a.Replicates, a.StandardDeviation is null),
                    (b.IsNonDetect, b.Replicates, b.StandardDeviation is null)
                );
                Assert.Equal(a.StandardDeviation ?? 0, b.StandardDeviation ?? 0, 1e-14);
            }
        }
    }

    // A name or number that looks like something else must come back as itself, or be refused; never as another.
    [Property(MaxTest = 300)]
    public void Read_AnyCoreName_SameOrRefused(NonEmptyString name)
    {
        var text = name.Get.Replace("\"", "\"\"", StringComparison.Ordinal);
        var result = ChlorideTableTests.Read(
            $"core,top_in,bottom_in,chloride_lb_per_yd3\n\"{text}\",0.25,0.75,9.1\n"
        );

        if (result.IsUsable)
        {
            Assert.Equal(NumberText.Clean(name.Get), Assert.Single(result.Cores).Core);
        }
        else
        {
            Assert.Empty(result.Cores);
        }
    }

    [Fact]
    public void Write_WhatATableCannotHold_Throws()
    {
        var units = (
            Depth: Units.Of(Dimension.Length)[0],
            Content: Units.Of(Dimension.Chloride)[0]
        );
        var core = new CoreProfile
        {
            Core = "a\nb",
            ExposureAge = Age.FromYears(1),
            Slices =
            [
                new ChlorideSlice
                {
                    Top = default,
                    Bottom = Depth.FromMillimetres(5),
                    Content = default,
                },
            ],
        };
        var writer = new ChlorideTableWriter
        {
            DepthUnit = units.Depth,
            ContentUnit = units.Content,
        };

        Assert.Throws<ArgumentException>(() => writer.Write([core], TextWriter.Null));
        Assert.Throws<ArgumentException>(() =>
            (writer with { DecimalComma = true }).Write([core with { Core = "a" }], TextWriter.Null)
        );
        Assert.Throws<InvalidOperationException>(() =>
            (writer with { ContentUnit = Units.Of(Dimension.Chloride)[2] }).Write(
                [core with { Core = "a" }],
                TextWriter.Null
            )
        );
    }
}
