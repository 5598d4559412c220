using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.Fitting;

/// <summary>The normal distribution below a detection limit, without underflow.</summary>
/// <remarks>Source: Abramowitz and Stegun 7.1.2 and 26.2.12 (asymptotic form). Checked by CensoredNormalTests.</remarks>
internal static class CensoredNormal
{
    private const double Sqrt2 = 1.4142135623730950488;
    private const double HalfLnTwoPi = 0.91893853320467274178;

    /// <summary>ln Φ(z).</summary>
    /// <param name="z">The limit less the mean, over the standard deviation.</param>
    public static double LogProbabilityBelow(double z)
    {
        if (z > 8)
        {
            return -0.5 * ErrorFunction.Erfc(z / Sqrt2);
        }

        if (z > -30)
        {
            return Math.Log(NormalQuantile.Probability(z));
        }

        var inverse = 1 / (z * z);
        return (-0.5 * z * z)
            - Math.Log(-z)
            - HalfLnTwoPi
            + Math.Log(1 - (inverse * (1 - (3 * inverse * (1 - (5 * inverse))))));
    }

    /// <summary>λ = φ(z)/Φ(z), the slope of ln Φ.</summary>
    /// <param name="z">The limit less the mean, over the standard deviation.</param>
    public static double Slope(double z) =>
        Math.Exp((-0.5 * z * z) - HalfLnTwoPi - LogProbabilityBelow(z));
}
