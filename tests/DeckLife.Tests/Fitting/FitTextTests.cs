using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class FitTextTests
{
    [Theory]
    [InlineData(6, 19.05, 0, "6-19.1 mm")]
    [InlineData(6, 19.05, 4, "6-19.1 mm (row 4)")]
    [InlineData(12.5, 12.5, 0, "at 12.5 mm")]
    [InlineData(12.5, 12.5, 1, "at 12.5 mm (row 1)")]
    public void Interval_SliceOrPoint_DepthsAndRow(
        double top,
        double bottom,
        int row,
        string expected
    ) =>
        Assert.Equal(
            expected,
            FitText
                .Interval(
                    new ChlorideSlice
                    {
                        Row = row,
                        Top = Depth.FromMillimetres(top),
                        Bottom = Depth.FromMillimetres(bottom),
                        Content = ChlorideContent.FromKilogramsPerCubicMetre(1),
                    }
                )
                .ToString()
        );

    [Fact]
    public void Values_PresentOrAbsent_SaidWithUnitOrInWords()
    {
        Assert.Equal("12.35 mm2/yr", FitText.Diffusion(12.3456).ToString());
        Assert.Equal("undetermined", FitText.Diffusion(null).ToString());
        Assert.Equal("0.3214 kg/m3", FitText.Content(0.32144).ToString());
        Assert.Equal("not within the search interval", FitText.Content(null).ToString());
    }

    [Theory]
    [InlineData(new[] { 4 }, "the slice of row 4")]
    [InlineData(new[] { 4, 7 }, "any one of the slices of rows 4 and 7")]
    [InlineData(new[] { 4, 5, 7 }, "any one of the slices of rows 4, 5 and 7")]
    public void AnyOfRows_OneOrSeveral_Listed(int[] rows, string expected) =>
        Assert.Equal(
            expected,
            FitText.AnyOfRows([.. rows.Select(r => new SliceInfluence(r, null, null))])
        );

    [Fact]
    public void Join_Templates_InOrderWithTheSeparator() =>
        Assert.Equal(
            "1.5 mm; second; {third}",
            FitText
                .Join(
                    "; ",
                    [
                        new MessageTemplate("{0} mm", 1.5),
                        new MessageTemplate("second"),
                        new MessageTemplate("{0}", "{third}"),
                    ]
                )
                .ToString()
        );
}
