using DeckLife.Numerics.SpecialFunctions;
using Xunit;

namespace DeckLife.Numerics.Tests.ErrorFunctions;

public class ErrorFunctionTests
{
    [Fact]
    public void Erfc_WholeRange_RelativeErrorBelow2e15()
    {
        // Source: mpmath, 60 digits. Below the surface the result falls to 5.7e-296 at 26.
        foreach (var (order, x, _, expected) in PeerValues.Of("inerfc").Where(v => v.First == 0))
        {
            AssertRelative(expected, ErrorFunction.Erfc(x), 2e-15, $"erfc({x:R}), order {order}");
        }
    }

    [Theory]
    // Source: tables of erfc(6), erfc(10), erfc(26), computed with 30 digits.
    [InlineData(6, 2.1519736712498913e-17)]
    [InlineData(10, 2.0884875837625448e-45)]
    [InlineData(26, 5.6631924088561428e-296)]
    public void Erfc_FarOut_IsNotOneMinusErf(double x, double expected) =>
        AssertRelative(expected, ErrorFunction.Erfc(x), 2e-15, "erfc");

    [Fact]
    public void Erfc_BeyondTheSmallestDouble_IsZero()
    {
        Assert.Equal(0, ErrorFunction.Erfc(30));
        Assert.Equal(0, ErrorFunction.Erfc(double.PositiveInfinity));
        Assert.Equal(2, ErrorFunction.Erfc(double.NegativeInfinity));
        Assert.True(double.IsNaN(ErrorFunction.Erfc(double.NaN)));
    }

    [Fact]
    public void Erfc_AcrossItsBranches_FallsMonotonically()
    {
        var last = ErrorFunction.Erfc(-6);
        for (var k = 1; k <= 33_000; k++)
        {
            var value = ErrorFunction.Erfc(-6 + (k * 1e-3));
            // Rounding may lift a value by an ulp or two where the function is flat near 2.
            Assert.True(value <= last * (1 + 5e-16), $"at {-6 + (k * 1e-3)}");
            last = value;
        }
    }

    [Fact]
    public void Erf_SmallArguments_NoCancellation()
    {
        Assert.Equal(1.1283791670955126e-200, ErrorFunction.Erf(1e-200), 1e-214);
        AssertRelative(0.112462916018284892, ErrorFunction.Erf(0.1), 1e-15, "erf(0.1)");
        AssertRelative(-0.520499877813046538, ErrorFunction.Erf(-0.5), 1e-15, "erf(-0.5)");
        AssertRelative(0.842700792949714869, ErrorFunction.Erf(1), 1e-15, "erf(1)");
    }

    [Fact]
    public void InverseErfc_WholeRange_RelativeErrorBelow4e15()
    {
        foreach (var (p, _, _, expected) in PeerValues.Of("inverse"))
        {
            // Near p = 1 the result's relative condition is p/(1-p): the argument's own rounding is not in the value.
            AssertRelative(expected, ErrorFunction.InverseErfc(p), 4e-15, $"inverse({p:R})");
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void InverseErfc_OutsideItsRange_Throws(double p) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ErrorFunction.InverseErfc(p));

    [Fact]
    public void Erfcx_TimesExpOfMinusSquare_IsErfc()
    {
        for (var x = -5.0; x < 26; x += 0.37)
        {
            AssertRelative(
                ErrorFunction.Erfc(x),
                ErrorFunction.Erfcx(x) * ErrorFunction.ExpOfMinusSquare(x),
                3e-15,
                $"x = {x:R}"
            );
        }
    }

    internal static void AssertRelative(
        double expected,
        double found,
        double tolerance,
        string what
    ) =>
        Assert.True(
            Math.Abs(found - expected) <= tolerance * Math.Abs(expected),
            FormattableString.Invariant(
                $"{what}: found {found:R}, expected {expected:R}, relative {Math.Abs(found - expected) / Math.Abs(expected):G3}"
            )
        );
}
