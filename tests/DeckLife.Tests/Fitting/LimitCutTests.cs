using DeckLife.Fitting;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class LimitCutTests
{
    // Student's t, 97.5 %: the printed tables of Abramowitz and Stegun 26.10 (12.706, 4.303, 2.776, 2.228); more digits from SciPy 1.10.1.
    [Theory]
    [InlineData(1, 12.706204736)]
    [InlineData(2, 4.3026527297)]
    [InlineData(4, 2.7764451052)]
    [InlineData(10, 2.2281388520)]
    [InlineData(200, 1.9718962236)]
    public void TwoSided95_DegreesOfFreedom_TableOfStudentsT(int degrees, double expected) =>
        Assert.Equal(expected, LimitCut.TwoSided95(degrees).Student, 1e-8);

    [Fact]
    public void TwoSided95_AnyDegrees_NormalQuantile()
    {
        Assert.Equal(1.9599639845, LimitCut.TwoSided95(3).Normal, 1e-9);
        Assert.Equal(1.9599639845, LimitCut.TwoSided95(150).Normal, 1e-9);
    }

    [Fact]
    public void TwoSided95_OutsideTheTable_ItsEnds()
    {
        Assert.Equal(LimitCut.TwoSided95(1), LimitCut.TwoSided95(0));
        Assert.Equal(LimitCut.TwoSided95(1), LimitCut.TwoSided95(-3));
        Assert.Equal(LimitCut.TwoSided95(200), LimitCut.TwoSided95(100_000));
    }
}
