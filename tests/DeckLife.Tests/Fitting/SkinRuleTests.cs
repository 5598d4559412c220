using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Which slices above a peak are left out, at both sides of every bound of the rule.</summary>
public class SkinRuleTests
{
    // 8 % of each value: (b - 1) = 2 × 0.08 sqrt(1 + b²) has the root b = 1.25700.
    [Theory]
    [InlineData(1.256, 0)]
    [InlineData(1.258, 1)]
    public void Apply_NoStandardDeviations_EightPerCentOfEachValue(double peak, int skip)
    {
        var found = SkinRule.Apply(Slices([1, peak, 0.5, 0.2]));

        Assert.Equal(skip, found.Skip);
        Assert.Equal(1, found.Peak);
        Assert.Equal((peak - 1) / (0.08 * Math.Sqrt(1 + (peak * peak))), found.Excess, 1e-12);
    }

    // 0.3 and 0.4 combine to 0.5.
    [Theory]
    [InlineData(2.99, 0)]
    [InlineData(3.01, 1)]
    public void Apply_GivenStandardDeviations_Used(double peak, int skip)
    {
        var slices = Slices([2, peak, 0.5]);
        slices[0] = slices[0] with { StandardDeviation = 0.3 };
        slices[1] = slices[1] with { StandardDeviation = 0.4 };

        Assert.Equal(skip, SkinRule.Apply(slices).Skip);
    }

    // 3 and 4 combine to 5: a rise of 10 is 2 of them, not more.
    [Fact]
    public void Apply_RiseOfTwoCombinedDeviations_Kept()
    {
        var slices = Slices([20, 30, 5]);
        slices[0] = slices[0] with { StandardDeviation = 3 };
        slices[1] = slices[1] with { StandardDeviation = 4 };

        Assert.Equal((0, 1, 2.0), SkinRule.Apply(slices));
    }

    // Of four determinations the mean has half the standard deviation: 0.1 / (0.04 sqrt(1 + 1.1²)) = 1.68; 0.15 / (0.04 sqrt(1 + 1.15²)) = 2.46.
    [Theory]
    [InlineData(1.10, 4, 0)]
    [InlineData(1.15, 4, 1)]
    [InlineData(1.15, 1, 0)]
    public void Apply_Replicates_NarrowTheMean(double peak, int replicates, int skip)
    {
        var slices = Slices([1, peak, 0.5]).ConvertAll(s => s with { Replicates = replicates });

        Assert.Equal(skip, SkinRule.Apply(slices).Skip);
    }

    [Theory]
    [InlineData(20.4, 1)]
    [InlineData(20.5, 0)]
    public void Apply_PeakDeeperThanOneInch_Kept(double topMm, int skip)
    {
        ChlorideSlice[] slices =
        [
            Slice(0, topMm, 2),
            Slice(topMm, topMm + 10, 6),
            Slice(topMm + 10, topMm + 20, 3),
        ];

        var found = SkinRule.Apply(slices);

        Assert.Equal((skip, 1), (found.Skip, found.Peak));
    }

    // The peak must exceed each slice above it; the smallest excess is the one told: 0.1 / (0.08 sqrt(2.9² + 3²)) = 0.2996.
    [Fact]
    public void Apply_OneSliceAboveNearThePeak_NothingLeftOut()
    {
        var found = SkinRule.Apply(Slices([1, 2.9, 3, 2, 1]));

        Assert.Equal((0, 2), (found.Skip, found.Peak));
        Assert.Equal(0.2996, found.Excess, 5e-5);
    }

    [Fact]
    public void Apply_TwoSlicesFarBelowThePeak_BothLeftOut() =>
        Assert.Equal(2, SkinRule.Apply(Slices([2, 1, 6, 4, 2])).Skip);

    [Fact]
    public void Apply_ContentsThatFall_NoPeakBelow() =>
        Assert.Equal((0, 0, 0), SkinRule.Apply(Slices([6, 4, 2])));

    [Fact]
    public void Apply_EqualLargestContents_TheShallowerIsThePeak() =>
        Assert.Equal((0, 0, 0), SkinRule.Apply(Slices([6, 6, 2])));

    // A detection limit is no content: it can't be a peak.
    [Fact]
    public void Apply_HighDetectionLimit_NoPeak()
    {
        var slices = Slices([4, 9, 3]);
        slices[1] = slices[1] with { IsNonDetect = true };

        Assert.Equal((0, 0, 0), SkinRule.Apply(slices));
    }

    [Fact]
    public void Apply_ErrorsOfZero_AnyRiseIsSure()
    {
        var found = SkinRule.Apply(
            Slices([4, 4.1, 3]).ConvertAll(s => s with { StandardDeviation = 0 })
        );

        Assert.Equal((1, 1, double.PositiveInfinity), found);
    }

    // Two determinations of one depth are no skin and peak, however far they lie apart.
    [Fact]
    public void Apply_TwoDeterminationsOfTheShallowestSlice_NeitherLeftOut()
    {
        ChlorideSlice[] slices = [Slice(0, 10, 3), Slice(0, 10, 9), Slice(10, 20, 4)];

        Assert.Equal((0, 0, 0), SkinRule.Apply(slices));
    }

    [Fact]
    public void Apply_TwoDeterminationsOfThePeak_OnlyTheSlicesAboveLeftOut()
    {
        ChlorideSlice[] slices =
        [
            Slice(0, 10, 3),
            Slice(10, 20, 8.8),
            Slice(10, 20, 9),
            Slice(20, 30, 4),
        ];

        var found = SkinRule.Apply(slices);

        Assert.Equal((1, 2), (found.Skip, found.Peak));
        // Against the slice above, not against the other determination.
        Assert.Equal(6 / (0.08 * Math.Sqrt(90)), found.Excess, 1e-12);
    }

    private static List<ChlorideSlice> Slices(double[] content) =>
        [.. content.Select((c, i) => Slice(8 * i, (8 * i) + 8, c))];

    private static ChlorideSlice Slice(double topMm, double bottomMm, double content) =>
        new()
        {
            Top = Depth.FromMillimetres(topMm),
            Bottom = Depth.FromMillimetres(bottomMm),
            Content = ChlorideContent.FromKilogramsPerCubicMetre(content),
        };
}
