using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Diffusion;

/// <summary>The exact mean of erfc(x/L) over a slice [a, b], and its derivatives with respect to ln D.</summary>
/// <remarks>
/// Equation: mean = L (ierfc(a/L) - ierfc(b/L)) / (b - a), L = 2√(∫D dt) (from ∫ₓ^∞ erfc = ierfc; Crank 1975, ch. 3).
/// With z = x/L and ln D entering through L alone: d mean/d ln D = (exp(-za²) - exp(-zb²)) / (2√π (zb - za)).
/// A slice thin against L, or of zero thickness (a point), is taken by a Taylor series about its middle, the
/// differences by forms without cancellation: relative error below 1e-13 for any thickness and any depth that does
/// not underflow (SliceMeanTests, against mpmath values).
/// </remarks>
public static class SliceMean
{
    // Below this half-width times max(1, z) the series about the middle is used; its six terms leave less than rounding.
    private const double ThinLimit = 0.1;

    /// <summary>The mean of erfc(x/L) over the slice.</summary>
    /// <param name="top">a [mm], at least 0.</param>
    /// <param name="bottom">b [mm], at least a; equal to a for a point.</param>
    /// <param name="diffusionLength">L = 2√(∫D dt) [mm]; 0 gives the start: 0 below the surface.</param>
    public static double Value(double top, double bottom, double diffusionLength) =>
        diffusionLength > 0
            ? OfScaled(top / diffusionLength, bottom / diffusionLength)
            : AtStart(top, bottom);

    /// <summary>The mean of erfc(x/L) and its first derivative with respect to ln D.</summary>
    /// <param name="top">a [mm], at least 0.</param>
    /// <param name="bottom">b [mm], at least a.</param>
    /// <param name="diffusionLength">L = 2√(∫D dt) [mm].</param>
    /// <param name="derivative">d mean/d ln D, at fixed time.</param>
    public static double Value(
        double top,
        double bottom,
        double diffusionLength,
        out double derivative
    )
    {
        if (!(diffusionLength > 0))
        {
            derivative = 0;
            return AtStart(top, bottom);
        }

        var first = top / diffusionLength;
        var second = bottom / diffusionLength;
        derivative = FirstDerivative(first, second);
        return OfScaled(first, second);
    }

    /// <summary>The mean of erfc(x/L) and its first two derivatives with respect to ln D.</summary>
    /// <param name="top">a [mm], at least 0.</param>
    /// <param name="bottom">b [mm], at least a.</param>
    /// <param name="diffusionLength">L = 2√(∫D dt) [mm].</param>
    /// <param name="derivative">d mean/d ln D.</param>
    /// <param name="secondDerivative">d² mean/d (ln D)².</param>
    public static double Value(
        double top,
        double bottom,
        double diffusionLength,
        out double derivative,
        out double secondDerivative
    )
    {
        var value = Value(top, bottom, diffusionLength, out derivative);
        secondDerivative =
            diffusionLength > 0
                ? SecondDerivative(top / diffusionLength, bottom / diffusionLength, derivative)
                : 0;
        return value;
    }

    private static double AtStart(double top, double bottom) => top == 0 && bottom == 0 ? 1 : 0;

    private static double OfScaled(double first, double second)
    {
        var half = 0.5 * (second - first);
        var middle = 0.5 * (first + second);
        if (half * Math.Max(1, middle) < ThinLimit)
        {
            return ThinMean(middle, half);
        }

        return (RepeatedErfcIntegral.First(first) - RepeatedErfcIntegral.First(second))
            / (second - first);
    }

    // Mean = Σ h^(2k)/(2k+1)! f^(2k)(m); f^(n) = (-1)ⁿ (2/√π) H(n-1) exp(-m²) for f = erfc.
    private static double ThinMean(double middle, double half)
    {
        var square = half * half;
        var factor = 1.0;
        // Hermite polynomials H0 and H1, carried on two at a time.
        var even = 1.0;
        var odd = 2 * middle;
        double sum = 0;
        for (var k = 1; k <= 6; k++)
        {
            factor *= square / (2 * k * ((2 * k) + 1));
            sum += factor * odd;
            even = (2 * middle * odd) - (2 * ((2 * k) - 1) * even);
            odd = (2 * middle * even) - (2 * 2 * k * odd);
        }

        return ErrorFunction.Erfc(middle)
            + (ErrorFunction.TwoOverSqrtPi * ErrorFunction.ExpOfMinusSquare(middle) * sum);
    }

    private static double FirstDerivative(double first, double second)
    {
        var width = second - first;
        var half = 0.5 * width;
        var middle = 0.5 * (first + second);
        if (width == 0)
        {
            return middle * ErrorFunction.ExpOfMinusSquare(middle) * ErrorFunction.OneOverSqrtPi;
        }

        // exp(-za²) - exp(-zb²) with (za²+zb²)/2 = m²+h² and (zb²-za²)/2 = 2mh.
        var exponent = 2 * middle * half;
        var difference =
            exponent < 1
                ? 2
                    * ErrorFunction.ExpOfMinusSquare(middle)
                    * Math.Exp(-half * half)
                    * Math.Sinh(exponent)
                : ErrorFunction.ExpOfMinusSquare(first) - ErrorFunction.ExpOfMinusSquare(second);
        return 0.5 * ErrorFunction.OneOverSqrtPi * difference / width;
    }

    // g = first derivative; dg/d ln D = g/2 + (za² e^(-za²) - zb² e^(-zb²)) / (2√π (zb-za)).
    private static double SecondDerivative(double first, double second, double derivative)
    {
        var half = 0.5 * (second - first);
        var middle = 0.5 * (first + second);
        if (half * Math.Max(1, middle) < ThinLimit)
        {
            // Mean over the slice of the point's own derivative (z/√π) e^(-z²) (z² - 1/2), by Gauss-Legendre.
            return Quadrature.GaussLegendre.Eight.Mean(
                z =>
                    z
                    * ErrorFunction.OneOverSqrtPi
                    * ErrorFunction.ExpOfMinusSquare(z)
                    * ((z * z) - 0.5),
                first,
                second
            );
        }

        var ends =
            (first * first * ErrorFunction.ExpOfMinusSquare(first))
            - (second * second * ErrorFunction.ExpOfMinusSquare(second));
        return (0.5 * derivative) + (0.5 * ErrorFunction.OneOverSqrtPi * ends / (second - first));
    }
}
