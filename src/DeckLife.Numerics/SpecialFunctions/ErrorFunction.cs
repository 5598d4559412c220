namespace DeckLife.Numerics.SpecialFunctions;

/// <summary>The error function, its complement, the scaled complement and the inverse of the complement.</summary>
/// <remarks>
/// Equation: erfc(x) = (2/√π) ∫ₓ^∞ exp(-t²) dt; erfcx(x) = exp(x²) erfc(x) (DLMF 7.2).
/// Method: Chebyshev series of the scaled function in (x - 3.75)/(x + 3.75), the map of Shepherd and Laframboise 1981
/// (Mathematics of Computation 36:249-253); coefficients computed with mpmath. exp(-x²) is corrected for the rounding
/// of x². Accuracy: relative error of erfc below 2e-15 for x up to 26.5 (checked by ErrorFunctionTests against mpmath
/// values); results below the smallest normal double lose digits, and underflow to 0 beyond x = 27.3.
/// </remarks>
public static class ErrorFunction
{
    internal const double TwoOverSqrtPi = 1.1283791670955125739;
    internal const double OneOverSqrtPi = 0.56418958354775628695;

    /// <summary>The complementary error function erfc(x).</summary>
    /// <param name="x">The argument; any real number.</param>
    public static double Erfc(double x)
    {
        if (x < 0)
        {
            return 2 - Erfc(-x);
        }

        return x > 28 ? 0
            : x < 0.05 ? 1 - Erf(x)
            : ExpOfMinusSquare(x) * ErfcxOfPositive(x);
    }

    /// <summary>The scaled complementary error function exp(x²) erfc(x).</summary>
    /// <param name="x">The argument; below -26.6 the result is larger than a double holds and is positive infinity.</param>
    public static double Erfcx(double x) =>
        x >= 0 ? ErfcxOfPositive(x) : (2 / ExpOfMinusSquare(x)) - ErfcxOfPositive(-x);

    /// <summary>The error function erf(x), without cancellation near 0.</summary>
    /// <param name="x">The argument; any real number.</param>
    public static double Erf(double x)
    {
        var size = Math.Abs(x);
        if (size > 0.6)
        {
            return Math.CopySign(1 - Erfc(size), x);
        }

        // Kummer's form: all terms of one sign. erf x = (2/√π) exp(-x²) Σ 2ⁿ x^(2n+1) / (2n+1)!! (DLMF 7.6.2).
        var square = x * x;
        var term = x;
        var sum = x;
        for (var n = 1; n < 40 && Math.Abs(term) > 1e-18 * Math.Abs(sum); n++)
        {
            term *= 2 * square / ((2 * n) + 1);
            sum += term;
        }

        return TwoOverSqrtPi * Math.Exp(-square) * sum;
    }

    /// <summary>The inverse of erfc: the x with erfc(x) = p.</summary>
    /// <param name="p">The value, in (0, 2).</param>
    /// <returns>x; relative error below 4e-15 (checked by ErrorFunctionTests).</returns>
    /// <exception cref="ArgumentOutOfRangeException">p does not lie between 0 and 2.</exception>
    public static double InverseErfc(double p)
    {
        if (!(p > 0 && p < 2))
        {
            throw new ArgumentOutOfRangeException(
                nameof(p),
                p,
                "The inverse of erfc takes values between 0 and 2, both excluded."
            );
        }

        if (p > 1)
        {
            return -InverseErf(p - 1);
        }

        return p >= 0.5 ? InverseErf(1 - p) : InverseErfcOfSmall(p);
    }

    /// <summary>exp(-x²), with the rounding error of x² corrected.</summary>
    /// <param name="x">The argument.</param>
    internal static double ExpOfMinusSquare(double x)
    {
        var square = x * x;
        if (square > 746)
        {
            return 0;
        }

        var rounding = Math.FusedMultiplyAdd(x, x, -square);
        return Math.Exp(-square) * (1 - rounding);
    }

    internal static double ErfcxOfPositive(double x) =>
        Chebyshev.Sum(ScaledErfcSeries.Order0, (x - 3.75) / (x + 3.75)) / (1 + (2 * x));

    // Newton on erf(y) = q; erf is concave for y > 0 and the start lies below the root: the steps never overshoot.
    private static double InverseErf(double q)
    {
        if (q == 0)
        {
            return 0;
        }

        if (q > 0.5)
        {
            return InverseErfcOfSmall(1 - q);
        }

        var y = q / TwoOverSqrtPi;
        for (var i = 0; i < 20; i++)
        {
            var step = (Erf(y) - q) / (TwoOverSqrtPi * Math.Exp(-y * y));
            y -= step;
            if (Math.Abs(step) < 1e-16 * y)
            {
                break;
            }
        }

        return y;
    }

    // Newton on ln erfc(x) - ln p, which is concave and nearly quadratic: full precision down to the smallest double.
    private static double InverseErfcOfSmall(double p)
    {
        var target = Math.Log(p);
        var x = Math.Sqrt(Math.Max(0.05, -target - (0.5 * Math.Log(Math.Max(1, -target)))));
        for (var i = 0; i < 50; i++)
        {
            var scaled = ErfcxOfPositive(x);
            var step = (Math.Log(scaled) - (x * x) - target) * scaled / TwoOverSqrtPi;
            x = Math.Max(0.01, x + step);
            if (Math.Abs(step) < 1e-15 * x)
            {
                break;
            }
        }

        return x;
    }
}
