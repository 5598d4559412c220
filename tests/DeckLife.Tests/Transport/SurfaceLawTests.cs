using DeckLife.Quantities;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Transport;

public class SurfaceLawTests
{
    [Fact]
    public void ContentAt_EachLaw_HasItsShape()
    {
        Assert.Equal(6, new ConstantSurface(C(6)).ContentAt(10));
        var linear = GrowingSurface.ToPlateau(C(6), Age.FromYears(15), 1);
        Assert.Equal(2, linear.ContentAt(5), 1e-12);
        Assert.Equal(6, linear.ContentAt(40), 1e-12);
        var root = GrowingSurface.ToPlateau(C(6), Age.FromYears(16), 0.5);
        Assert.Equal(3, root.ContentAt(4), 1e-12);
        Assert.Equal(6, root.ContentAt(16.01), 1e-12);
        Assert.Equal(2 * 3, GrowingSurface.WithRate(2, 0.5).ContentAt(9), 1e-12);
        var exponential = new ExponentialSurface(C(6), Age.FromYears(10));
        Assert.Equal(6 * (1 - Math.Exp(-0.5)), exponential.ContentAt(5), 1e-12);
        var table = new TabulatedSurface([Age.FromYears(1), Age.FromYears(3)], [C(2), C(6)]);
        Assert.Equal([2.0, 2, 4, 6, 6], new[] { 0, 1, 2, 3, 9.0 }.Select(table.ContentAt));
        Assert.Equal(0, new SealedSurface().ContentAt(3));
    }

    [Fact]
    public void LeakFraction_AnyLaw_ScalesTheContent()
    {
        Assert.Equal(1.2, (new ConstantSurface(C(6)) { LeakFraction = 0.2 }).ContentAt(1), 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new ConstantSurface(C(6)) { LeakFraction = 1.01 }
        );
    }

    [Fact]
    public void Seasonal_MonthsFromItsOwnStart_JumpTwiceAYear()
    {
        // Starts in July; salt from November to March: on from 4/12 to 9/12 of each year.
        var law = new SeasonalSurface(C(7), [11, 12, 1, 2, 3], C(1), 7);

        Assert.Equal(1, law.ContentAt(0));
        Assert.Equal(7, law.ContentAt(4.0 / 12));
        Assert.Equal(1, law.ContentAt((4.0 / 12) - 1e-6));
        Assert.Equal(7, law.ContentAt((9.0 / 12) - 1e-6));
        Assert.Equal(1, law.ContentAt(9.0 / 12));
        double[] expected = [4.0 / 12, 9.0 / 12, 16.0 / 12, 21.0 / 12];
        Assert.Equal(expected, law.Jumps(2).AsEnumerable());
        // Month boundaries computed from later years keep to the calendar.
        for (var year = 0; year < 200; year++)
        {
            Assert.Equal(7, law.ContentAt(year + (4.0 / 12)));
            Assert.Equal(1, law.ContentAt(year + (9.0 / 12)));
        }
    }

    [Fact]
    public void Table_TimesThatDoNotRise_Throws() =>
        Assert.Throws<ArgumentException>(() =>
            new TabulatedSurface([Age.FromYears(3), Age.FromYears(1)], [C(2), C(6)])
        );

    [Fact]
    public void Exposed_BottomWithConvectionZone_Throws() =>
        Assert.Throws<ArgumentException>(() =>
            BottomFace.Exposed(
                new ConstantSurface(C(1)) { ConvectionDepth = Depth.FromMillimetres(5) }
            )
        );

    private static ChlorideContent C(double value) =>
        ChlorideContent.FromKilogramsPerCubicMetre(value);
}
