namespace DeckLife.Numerics.Quadrature;

/// <summary>Double-exponential quadrature over the half line.</summary>
/// <remarks>Source: Takahasi and Mori 1974, Publications of RIMS 9:721-741; u = exp(s - exp(-s)), trapezoidal rule in s.</remarks>
public static class DoubleExponential
{
    /// <summary>∫ f(u) du over u from 0 to infinity, for a smooth f that falls at least as e^-u: nodes lie between e^-60 and e^7.</summary>
    /// <param name="integrand">f; called with positive arguments.</param>
    public static double OverHalfLine(Func<double, double> integrand)
    {
        ArgumentNullException.ThrowIfNull(integrand);
        const double step = 1.0 / 24;
        double sum = 0;
        for (var k = -100; k <= 168; k++)
        {
            var s = k * step;
            var left = Math.Exp(-s);
            var u = Math.Exp(s - left);
            sum += integrand(u) * u * (1 + left);
        }

        return sum * step;
    }
}
