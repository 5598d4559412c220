using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.SpecialFunctions;
using DeckLife.Numerics.Vectors;
using Xunit;

namespace DeckLife.Numerics.Tests.Kernels;

public class ClosedFormContentTests
{
    // Against the formula written out with the scalar functions, each combination of drawn exponents, every width, and a length that no vector fits.
    [Theory]
    [InlineData(false, false, false)]
    [InlineData(true, false, false)]
    [InlineData(true, false, true)]
    [InlineData(false, true, false)]
    [InlineData(true, true, true)]
    public void Fill_EveryWidth_IsTheFormula(bool hasAgeing, bool hasExponent, bool isInstantaneous)
    {
        const int n = 1003;
        double[] Column(ulong index, double least, double most)
        {
            var values = new double[n];
            new RandomStream(5, "closed form", index).FillUniform(values);
            return [.. values.Select(u => least + ((most - least) * u))];
        }

        var depth = Column(0, 0, 120);
        var coefficient = Column(1, 1, 400);
        var ageing = hasAgeing ? Column(2, 0, 0.9) : [];
        var exponent = hasExponent ? Column(3, -1, 1) : [];
        var initial = Column(4, 0, 1);
        var surface = Column(5, 2, 20);
        var numbers = new ClosedFormNumbers(40, Math.Log(0.1 / 40), isInstantaneous);
        foreach (var width in VectorWidth.Available)
        {
            var found = new double[n];
            ClosedFormContent.Fill(
                depth,
                coefficient,
                ageing,
                exponent,
                initial,
                surface,
                [],
                numbers,
                found,
                width
            );
            var reached = new double[n];
            var threshold = found.Select((c, i) => c + (((i % 3) - 1) * 0.5)).ToArray();
            ClosedFormContent.Fill(
                depth,
                coefficient,
                ageing,
                exponent,
                initial,
                surface,
                threshold,
                numbers,
                reached,
                width
            );
            Assert.Equal(threshold.Select((_, i) => i % 3 == 2 ? 0.0 : 1), reached);
            for (var i = 0; i < n; i++)
            {
                var m = hasAgeing ? ageing[i] : 0;
                var clock =
                    coefficient[i]
                    * 40
                    * Math.Pow(0.1 / 40, m)
                    * Math.Exp(hasExponent ? exponent[i] : 0)
                    / (isInstantaneous ? 1 - m : 1);
                var expected =
                    initial[i]
                    + (
                        (surface[i] - initial[i])
                        * ErrorFunction.Erfc(depth[i] / (2 * Math.Sqrt(clock)))
                    );
                Assert.Equal(expected, found[i], 3e-13);
            }
        }
    }
}
