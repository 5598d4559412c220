using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.Tests.ErrorFunctions;
using Xunit;

namespace DeckLife.Numerics.Tests.Diffusion;

public class SliceMeanTests
{
    [Fact]
    public void Value_ThickThinAndFar_RelativeErrorBelow1e13()
    {
        foreach (var (top, bottom, length, expected) in PeerValues.Of("slicemean"))
        {
            ErrorFunctionTests.AssertRelative(
                expected,
                SliceMean.Value(top, bottom, length),
                1e-13,
                $"{top:R} to {bottom:R}, L {length:R}"
            );
        }
    }

    [Fact]
    public void Value_FirstDerivative_RelativeErrorBelow1e13()
    {
        foreach (var (top, bottom, length, expected) in PeerValues.Of("slicemean1"))
        {
            SliceMean.Value(top, bottom, length, out var derivative);
            ErrorFunctionTests.AssertRelative(
                expected,
                derivative,
                1e-13,
                $"{top:R} to {bottom:R}, L {length:R}"
            );
        }
    }

    [Fact]
    public void Value_SecondDerivative_ErrorBelow1e12OfTheLarger()
    {
        // The second derivative has a zero in z: its error is held against the first derivative where that is larger.
        foreach (var (top, bottom, length, expected) in PeerValues.Of("slicemean2"))
        {
            SliceMean.Value(top, bottom, length, out var first, out var second);
            Assert.Equal(expected, second, 1e-12 * Math.Max(Math.Abs(expected), Math.Abs(first)));
        }
    }

    [Fact]
    public void Value_WorkedLayers_AgreeWithPublishedForm()
    {
        // Cs 5, C0 0.1, D 30 mm²/yr, t 20 yr, exact mean over ground layers; computed with 30 digits from Crank 1975 eq. 2.45.
        var length = 2 * Math.Sqrt(30 * 20);
        double[] limits = [0, 6, 13, 19, 25, 38, 51];
        double[] expected =
        [
            4.662259661588,
            3.942860002572,
            3.258446126629,
            2.676861038965,
            1.893315550146,
            1.087643193406,
        ];
        for (var i = 0; i < expected.Length; i++)
        {
            Assert.Equal(
                expected[i],
                0.1 + (4.9 * SliceMean.Value(limits[i], limits[i + 1], length)),
                1e-12
            );
        }
    }

    [Fact]
    public void Value_AtTheStart_IsZeroBelowTheSurface()
    {
        Assert.Equal(0, SliceMean.Value(0, 10, 0));
        Assert.Equal(1, SliceMean.Value(0, 0, 0));
    }
}
