namespace DeckLife.Numerics.SpecialFunctions;

/// <summary>Sums Chebyshev series.</summary>
internal static class Chebyshev
{
    /// <summary>Σ c[k] T_k(t) by Clenshaw's recurrence.</summary>
    /// <param name="coefficients">c[0], c[1], …</param>
    /// <param name="t">The argument, in [-1, 1].</param>
    internal static double Sum(double[] coefficients, double t)
    {
        var twice = 2 * t;
        double next = 0;
        double afterNext = 0;
        for (var k = coefficients.Length - 1; k > 0; k--)
        {
            (next, afterNext) = ((twice * next) - afterNext + coefficients[k], next);
        }

        return (t * next) - afterNext + coefficients[0];
    }
}
