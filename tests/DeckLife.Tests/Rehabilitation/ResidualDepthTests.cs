using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Tests.Rehabilitation;

public class ResidualDepthTests
{
    // erfc 0.5 = 0.4795001222 and erfc 1 = 0.1572992071 (Abramowitz and Stegun, table 7.1, by 1 − erf).
    [Theory]
    [InlineData(0.4795001221869535, 0.5)]
    [InlineData(0.15729920705028513, 1)]
    public void Above_TabledErrorFunctions_IsTheDepthOfTheirArgument(double erfc, double argument)
    {
        // Cs 6, C0 0.2: the content at the depth is C0 + (Cs − C0) erfc.
        var depth = ResidualDepth.Above(6, 0.2, 40, 0.2 + (5.8 * erfc));

        Assert.Equal(40 * argument, depth, 1e-9);
    }

    [Theory]
    [InlineData(1, 0.1, 1, 0)] // the surface is at the limit: nothing lies above
    [InlineData(0.9, 0.1, 1, 0)]
    [InlineData(6, 1, 1, double.PositiveInfinity)] // the background is at the limit: no depth is enough
    [InlineData(6, 1.5, 1, double.PositiveInfinity)]
    public void Above_LimitAtEitherEnd_NothingOrNoDepth(
        double surface,
        double background,
        double limit,
        double expected
    ) => Assert.Equal(expected, ResidualDepth.Above(surface, background, 40, limit));

    [Fact]
    public void AreaRatio_SquarePatch_IsTheRimOverThePatch()
    {
        // 1 m by 1 m in a square of 1.4 m: 0.96 m² of rim.
        var halo = new PatchHalo
        {
            PatchSide = Depth.FromMillimetres(1000),
            Width = Depth.FromMillimetres(200),
            RateFactor = 2,
            Source = "invented",
        };

        Assert.Equal(0.96, halo.AreaRatio, 1e-12);
        Assert.Equal(0, (halo with { Width = default }).AreaRatio);
    }
}
