using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.Quadrature;
using DeckLife.Numerics.SpecialFunctions;
using Xunit;

namespace DeckLife.Numerics.Tests.Diffusion;

public class ClosedFormTests
{
    [Fact]
    public void ExponentialSurface_BothBranches_EqualDuhamelsIntegral()
    {
        // Duhamel: C = ∫ k e^(-kτ) erfc(x/2√(D(t-τ))) dτ, by adaptive quadrature.
        foreach (
            var (depth, time, rate) in new[]
            {
                (10.0, 3.0, 0.3),
                (10, 3, 0.333),
                (10, 3, 0.334),
                (25, 30, 0.1),
                (60, 5, 2),
                (80, 1, 0.5),
            }
        )
        {
            var expected = GaussLegendre.Sixteen.IntegrateAdaptively(
                tau =>
                    rate
                    * Math.Exp(-rate * tau)
                    * HalfSpace.ConstantSurface(depth, 30 * (time - tau)),
                0,
                time,
                1e-15
            );
            Assert.Equal(expected, HalfSpace.ExponentialSurface(depth, 30, time, rate), 1e-13);
        }
    }

    [Fact]
    public void FiniteSlab_BothSeries_AgreeWhereTheyMeet()
    {
        for (var x = 0.0; x <= 1; x += 0.1)
        {
            Assert.Equal(
                FiniteSlab.ByEigenfunctions(x, 1, 0.3),
                FiniteSlab.ByImages(x, 1, 0.3),
                1e-14
            );
        }

        Assert.Equal(
            FiniteSlab.UptakeRatio(1, 0.3 - 1e-15),
            FiniteSlab.UptakeRatio(1, 0.3 + 1e-15),
            1e-13
        );
    }

    [Fact]
    public void TwoMedia_EqualCoefficients_IsTheHalfSpace()
    {
        var media = new TwoMedia(40, 1);
        foreach (var depth in new[] { 0.0, 10, 40, 60, 120 })
        {
            Assert.Equal(
                HalfSpace.ConstantSurface(depth, 500),
                media.ConstantSurface(depth, 500),
                1e-15
            );
        }
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(3)]
    [InlineData(400)]
    public void TwoMedia_Interface_IsContinuous(double ratio)
    {
        var media = new TwoMedia(40, ratio);
        Assert.Equal(media.ConstantSurface(40, 300), media.ConstantSurface(40 + 1e-9, 300), 1e-8);
    }

    [Fact]
    public void TwoMedia_ResidualOfEqualCoefficients_IsTheHalfSpaceWithTheProfileMovedDown()
    {
        double Profile(double y) => 5 * Math.Exp(-y / 30);
        var media = new TwoMedia(40, 1);
        foreach (var y in new[] { 0.0, 15, 50 })
        {
            var expected = HalfSpaceResidual.SurfaceAtZero(
                40 + y,
                300,
                x => x < 40 ? 0 : Profile(x - 40),
                1000
            );
            Assert.Equal(expected, media.Residual(y, 300, Profile, 1000), 1e-11);
        }
    }

    [Fact]
    public void TwoMedia_ResidualUnderNearlyTightLayer_IsTheSealedHalfSpace()
    {
        double Profile(double y) => 5 * Math.Exp(-y / 30);
        var expected = HalfSpaceResidual.Sealed(10, 300, Profile, 1000);
        // A layer of D 1e-10 of the half space's lets through a share of √1e-10.
        Assert.Equal(expected, new TwoMedia(40, 1e10).Residual(10, 300, Profile, 1000), 1e-4);
    }

    [Fact]
    public void QuarterSpace_Faces_AndFarField()
    {
        Assert.Equal(1, QuarterSpace.ConstantSurface(0, 50, 300));
        Assert.Equal(
            HalfSpace.ConstantSurface(30, 300),
            QuarterSpace.ConstantSurface(30, 1e6, 300),
            1e-15
        );
        var product =
            1
            - (
                ErrorFunction.Erf(30 / (2 * Math.Sqrt(300)))
                * ErrorFunction.Erf(20 / (2 * Math.Sqrt(300)))
            );
        Assert.Equal(product, QuarterSpace.ConstantSurface(30, 20, 300), 1e-15);
    }

    [Fact]
    public void FarOut_DepthSixInchesInOneYear_IsPositiveAndMonotone()
    {
        // 6 in, D 1e-3 in²/yr, 1 yr: 1 - erf would be 0 from 150 mm on long before erfc is.
        var clock = 1e-3 * 645.16;
        var last = 1.0;
        for (var depth = 0.0; depth <= 152.4; depth += 0.5)
        {
            var value = HalfSpace.ConstantSurface(depth, clock);
            Assert.True(value >= 0 && value <= last && double.IsFinite(value));
            if (depth is > 5 and < 40)
            {
                Assert.True(value > 0 && value < last);
            }

            last = value;
        }

        Assert.Equal(1, HalfSpace.ConstantSurface(0, 0));
        Assert.Equal(0, HalfSpace.ConstantSurface(10, 0));
    }
}
