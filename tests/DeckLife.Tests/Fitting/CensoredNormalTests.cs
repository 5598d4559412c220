using DeckLife.Fitting;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class CensoredNormalTests
{
    // References: SciPy 1.10.1, special.log_ndtr.
    [Theory]
    [InlineData(0, -0.69314718055994530942)]
    [InlineData(-5, -15.064998393988725)]
    [InlineData(-29.9, -451.32291245852868)]
    [InlineData(-30.1, -457.32956441638222)]
    [InlineData(-100, -5005.5242086942050886)]
    [InlineData(3, -0.0013508099647481923)]
    [InlineData(9, -1.1285884059538407e-19)]
    public void LogProbabilityBelow_AnyArgument_IsThatOfSciPy(double z, double expected) =>
        Assert.Equal(1, CensoredNormal.LogProbabilityBelow(z) / expected, 1e-12);

    [Fact]
    public void Slope_IsTheDerivative()
    {
        foreach (var z in (double[])[-40, -31, -29, -3, 0, 2])
        {
            const double Step = 1e-5;
            var numeric =
                (
                    CensoredNormal.LogProbabilityBelow(z + Step)
                    - CensoredNormal.LogProbabilityBelow(z - Step)
                ) / (2 * Step);
            Assert.Equal(numeric, CensoredNormal.Slope(z), 1e-5 * (1 + Math.Abs(numeric)));
        }
    }
}
