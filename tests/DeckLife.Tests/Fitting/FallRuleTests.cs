using DeckLife.Fitting;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Kendall's tau-a by hand counts of the pairs.</summary>
public class FallRuleTests
{
    [Theory]
    [InlineData(new[] { 4.0, 3, 2, 1 }, 0, -1)]
    [InlineData(new[] { 1.0, 2, 3, 4 }, 0, 1)]
    // The tie counts among the 6 pairs, for neither side.
    [InlineData(new[] { 3.0, 2, 2, 1 }, 0, -5 / 6.0)]
    // The first slice rises against all of the others: 3 pairs up, 3 down; without it all 3 fall.
    [InlineData(new[] { 1.0, 4, 3, 2 }, 0, 0)]
    [InlineData(new[] { 1.0, 4, 3, 2 }, 1, -1)]
    [InlineData(new[] { 1.0 }, 0, 0)]
    [InlineData(new[] { 2.0, 1 }, 1, 0)]
    public void KendallTau_Measured_HandCount(double[] content, int from, double expected) =>
        Assert.Equal(expected, FallRule.KendallTau(Data(content), from), 1e-15);

    // 3, 1, <2, <0.5: 3 lies above all others, 1 above <0.5; 1 against <2 and <2 against <0.5 are not sure. 4 of 6 pairs fall.
    [Fact]
    public void KendallTau_NonDetects_OnlySureOrdersCount() =>
        Assert.Equal(
            -4 / 6.0,
            FallRule.KendallTau(Data([3, 1, 2, 0.5], [false, false, true, true]), 0),
            1e-15
        );

    [Theory]
    // Less than 2 is below a measured 2, and below 3; 1 may be above or below.
    [InlineData(2, 1)]
    [InlineData(3, 1)]
    [InlineData(1, 0)]
    public void KendallTau_MeasuredUnderANonDetect_RiseOnlyWhereSure(double deep, double tau) =>
        Assert.Equal(tau, FallRule.KendallTau(Data([2, deep], [true, false]), 0));

    [Fact]
    public void KendallTau_MeasuredAtTheLimitAboveANonDetect_Falls() =>
        Assert.Equal(-1, FallRule.KendallTau(Data([2, 2], [false, true]), 0));

    // Two determinations of one depth have no order of depth: of 3 pairs 2 fall.
    [Fact]
    public void KendallTau_Replicates_TheirPairHasNoOrder() =>
        Assert.Equal(
            -2 / 3.0,
            FallRule.KendallTau(
                Make([0, 0, 10], [10, 10, 20], [3, 5, 1], [false, false, false]),
                0
            ),
            1e-15
        );

    [Fact]
    public void KendallTau_DeepestFirst_StillByDepth() =>
        Assert.Equal(
            -1,
            FallRule.KendallTau(
                Make([20, 10, 0], [30, 20, 10], [1, 2, 3], [false, false, false]),
                0
            )
        );

    private static ProfileData Data(double[] content, bool[]? nonDetect = null) =>
        Make(
            [.. content.Select((_, i) => 10.0 * i)],
            [.. content.Select((_, i) => 10.0 * (i + 1))],
            content,
            nonDetect ?? new bool[content.Length]
        );

    private static ProfileData Make(
        double[] top,
        double[] bottom,
        double[] content,
        bool[] nonDetect
    )
    {
        var core = Cores.Slices(20, top, bottom, content, nonDetect);
        return ProfileDataBuilder.Build(core, core.Slices, new ProfileFitOptions());
    }
}
