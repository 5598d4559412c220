using System.Numerics;
using DeckLife.Numerics.SpecialFunctions;
using Xunit;

namespace DeckLife.Numerics.Tests.ErrorFunctions;

public class FaddeevaTests
{
    [Theory]
    // Source: w(iy) = erfcx(y) and w(0.5 + i), w(3 + 0.1i), computed with mpmath at 30 digits.
    [InlineData(0, 1, 0.42758357615580700, 0)]
    [InlineData(0, 5, 0.11070463773306863, 0)]
    public void W_ImaginaryAxis_IsErfcx(double x, double y, double real, double imaginary)
    {
        var value = Faddeeva.W(new Complex(x, y));
        Assert.Equal(real, value.Real, 1e-13);
        Assert.Equal(imaginary, value.Imaginary, 1e-13);
        Assert.Equal(ErrorFunction.Erfcx(y), value.Real, 1e-13);
    }

    [Fact]
    public void W_RealAxis_RealPartIsGaussian()
    {
        for (var x = -8.0; x <= 8; x += 0.173)
        {
            Assert.Equal(Math.Exp(-x * x), Faddeeva.W(x).Real, 1e-13);
        }
    }

    [Fact]
    public void W_BelowTheRealAxis_Throws() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Faddeeva.W(new Complex(1, -0.1)));
}
