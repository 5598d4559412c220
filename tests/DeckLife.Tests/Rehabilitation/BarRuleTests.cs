using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Tests.Rehabilitation;

public class BarRuleTests
{
    // A bar of 16 mm under 50 mm of cover has its middle at 58 mm.
    [Theory]
    [InlineData(57.9, false)]
    [InlineData(58, false)] // exactly half of it
    [InlineData(58.1, true)]
    public void IsUndercut_AroundTheMiddleOfTheBar_OnlyBeyondIt(double removalMm, bool expected) =>
        Assert.Equal(expected, BarRule.IsUndercut(removalMm, 50, 16));

    [Theory]
    [InlineData(60, 50 + 16 + 0.75 * 25.4)] // 3/4 in clear under the bar
    [InlineData(100, 100)] // deeper is planned anyway
    public void UndercutDepthMm_ThreeQuartersOfAnInchUnderTheBar_OrThePlannedDepth(
        double plannedMm,
        double expected
    ) => Assert.Equal(expected, BarRule.UndercutDepthMm(plannedMm, 50, 16), 1e-12);
}
