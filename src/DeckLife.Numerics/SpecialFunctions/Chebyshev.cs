namespace DeckLife.Numerics.SpecialFunctions;

/// <summary>Sums Chebyshev series.</summary>
internal static class Chebyshev
{
    /// <summary>Σ c[k] T_k(t) by Clenshaw's recurrence, even and odd terms side by side, since each recurrence waits for itself.</summary>
    /// <remarks>
    /// With y = 2t² - 1: T_2k(t) = T_k(y) and T_2k+1(t) = t W_k(y), where W_0 = 1, W_1 = 2y - 1 and both follow f_k+1 = 2y f_k - f_k-1.
    /// </remarks>
    /// <param name="coefficients">c[0], c[1], …; at least one.</param>
    /// <param name="t">The argument, in [-1, 1].</param>
    internal static double Sum(double[] coefficients, double t)
    {
        var y = (2 * t * t) - 1;
        var twice = 2 * y;
        double even = 0;
        double afterEven = 0;
        double odd = 0;
        double afterOdd = 0;
        var last = (coefficients.Length - 1) / 2;
        if (coefficients.Length % 2 == 1)
        {
            even = coefficients[2 * last];
            last--;
        }

        for (var k = last; k >= 0; k--)
        {
            (even, afterEven) = ((twice * even) + (coefficients[2 * k] - afterEven), even);
            (odd, afterOdd) = ((twice * odd) + (coefficients[(2 * k) + 1] - afterOdd), odd);
        }

        return (even - (y * afterEven)) + (t * (odd - afterOdd));
    }
}
