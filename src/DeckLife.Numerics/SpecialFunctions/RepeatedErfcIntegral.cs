using DeckLife.Numerics.Quadrature;

namespace DeckLife.Numerics.SpecialFunctions;

/// <summary>The repeated integrals of erfc, iⁿerfc(x), of whole and of real order, plain and scaled by exp(x²).</summary>
/// <remarks>
/// Equation: i⁰erfc = erfc, iⁿerfc(x) = ∫ₓ^∞ iⁿ⁻¹erfc(t) dt; for real order ν > -1,
/// i^ν erfc(x) = (2/√π) ∫ₓ^∞ (t-x)^ν exp(-t²) dt / Γ(ν+1) (Abramowitz and Stegun 7.2; DLMF 7.18).
/// The forward recurrence 2n iⁿ = iⁿ⁻² - 2x iⁿ⁻¹ loses all digits for large x, so for x at least 0.25 the ratios of
/// neighbours are taken from the backward continued fraction (iⁿ is the minimal solution), for smaller x from the
/// power series A&amp;S 7.2.4, and for negative x from the forward recurrence, where all terms have one sign.
/// Accuracy: relative error below 1e-14 for orders 0 to 6 and x from -5 to 26 (RepeatedErfcIntegralTests, against
/// mpmath values); real orders below 1e-13.
/// </remarks>
public static class RepeatedErfcIntegral
{
    /// <summary>ierfc(x) = exp(-x²)/√π - x erfc(x), without cancellation.</summary>
    /// <param name="x">The argument; any real number.</param>
    public static double First(double x)
    {
        if (x < 0)
        {
            return First(-x) - (2 * x);
        }

        return x > 28 ? 0 : ErrorFunction.ExpOfMinusSquare(x) * ScaledFirst(x);
    }

    /// <summary>i²erfc(x), without cancellation.</summary>
    /// <param name="x">The argument; any real number.</param>
    public static double Second(double x)
    {
        if (x < 0)
        {
            // i²erfc(x) + i²erfc(-x) = 1/2 + x² (A&S 7.2.11).
            return 0.5 + (x * x) - Second(-x);
        }

        return x > 28 ? 0 : ErrorFunction.ExpOfMinusSquare(x) * ScaledSecond(x);
    }

    /// <summary>iⁿerfc(x) of whole order.</summary>
    /// <param name="order">n, at least -1 (where it is (2/√π) exp(-x²)) and at most 60.</param>
    /// <param name="x">The argument; any real number.</param>
    /// <exception cref="ArgumentOutOfRangeException">The order is out of range.</exception>
    public static double Value(int order, double x)
    {
        if (order is < -1 or > 60)
        {
            throw new ArgumentOutOfRangeException(
                nameof(order),
                order,
                "Orders from -1 to 60 are computed."
            );
        }

        if (x >= 0.25)
        {
            return x > 28 ? 0 : ErrorFunction.ExpOfMinusSquare(x) * Scaled(order, x);
        }

        return x >= 0 ? PowerSeries(order, x) : ForwardOfNegative(order, x);
    }

    /// <summary>exp(x²) iⁿerfc(x) of whole order: does not underflow for large x.</summary>
    /// <param name="order">n, at least -1 and at most 60.</param>
    /// <param name="x">The argument, at least 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The order or the argument is out of range.</exception>
    public static double Scaled(int order, double x)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(x);
        ArgumentOutOfRangeException.ThrowIfLessThan(order, -1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(order, 60);
        switch (order)
        {
            case -1:
                return ErrorFunction.TwoOverSqrtPi;
            case 0:
                return ErrorFunction.ErfcxOfPositive(x);
            case 1:
                return ScaledFirst(x);
            case 2:
                return ScaledSecond(x);
            default:
                break;
        }

        if (x < 0.25)
        {
            return Math.Exp(x * x) * PowerSeries(order, x);
        }

        // r(k) = iᵏ/iᵏ⁻¹ = 1/(2x + 2(k+1) r(k+1)); the start's error falls by exp(-2x√(2k)), so it is started where
        // that is below the rounding. The products of the ratios from order 2 up give the value.
        var start = order + 30 + (int)(180 / (x * x));
        var ratio = 1 / (x + Math.Sqrt((x * x) + (2 * start)));
        var product = 1.0;
        for (var k = start - 1; k >= 3; k--)
        {
            ratio = 1 / ((2 * x) + (2 * (k + 1) * ratio));
            if (k <= order)
            {
                product *= ratio;
            }
        }

        return product * ScaledSecond(x);
    }

    /// <summary>i^ν erfc(x) of real order.</summary>
    /// <param name="order">ν, from 0 to 60.</param>
    /// <param name="x">The argument, at least 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">The order or the argument is out of range.</exception>
    public static double Value(double order, double x)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(x);
        if (!(order >= 0 && order <= 60))
        {
            throw new ArgumentOutOfRangeException(
                nameof(order),
                order,
                "Real orders from 0 to 60 are computed."
            );
        }

        if (order == Math.Floor(order))
        {
            return Value((int)order, x);
        }

        if (x > 28)
        {
            return 0;
        }

        // (2/√π)/Γ(ν+1) exp(-x²) ∫ u^ν exp(-u² - 2xu) du over u > 0: the integrand is positive, nothing cancels.
        var integral = DoubleExponential.OverHalfLine(u =>
            Math.Exp((order * Math.Log(u)) - (u * (u + (2 * x))))
        );
        return ErrorFunction.TwoOverSqrtPi
            * ErrorFunction.ExpOfMinusSquare(x)
            * integral
            / MathNet.Numerics.SpecialFunctions.Gamma(order + 1);
    }

    internal static double ScaledFirst(double x)
    {
        var factor = 1 + (2 * x);
        return Chebyshev.Sum(ScaledErfcSeries.Order1, (x - 3.75) / (x + 3.75)) / (factor * factor);
    }

    internal static double ScaledSecond(double x)
    {
        var factor = 1 + (2 * x);
        return Chebyshev.Sum(ScaledErfcSeries.Order2, (x - 3.75) / (x + 3.75))
            / (factor * factor * factor);
    }

    // A&S 7.2.4: Σ (-1)ᵏ xᵏ / (2ⁿ⁻ᵏ k! Γ(1 + (n-k)/2)); with |x| below 0.25 the terms cancel by less than a factor 40.
    private static double PowerSeries(int order, double x)
    {
        double sum = 0;
        var factor = 1.0;
        for (var k = 0; k < order + 34; k++)
        {
            sum += factor * AtZero(order - k);
            factor *= -x / (k + 1);
        }

        return sum;
    }

    // iⁿerfc(0) = 1/(2ⁿ Γ(1 + n/2)), 0 for n = -2, -4, …
    private static double AtZero(int order)
    {
        if (order < 0 && order % 2 == 0)
        {
            return 0;
        }

        // From i⁰ = 1, i⁻¹ = 2/√π by iⁿ(0) = iⁿ⁻²(0)/(2n).
        var value = order % 2 == 0 ? 1 : ErrorFunction.TwoOverSqrtPi;
        for (var n = order % 2 == 0 ? 2 : 1; n <= order; n += 2)
        {
            value /= 2 * n;
        }

        for (var n = -1; n > order; n -= 2)
        {
            value *= 2 * n;
        }

        return value;
    }

    private static double ForwardOfNegative(int order, double x)
    {
        var before = ErrorFunction.TwoOverSqrtPi * ErrorFunction.ExpOfMinusSquare(x);
        if (order == -1)
        {
            return before;
        }

        var value = ErrorFunction.Erfc(x);
        for (var n = 1; n <= order; n++)
        {
            (before, value) = (value, (before - (2 * x * value)) / (2 * n));
        }

        return value;
    }
}
