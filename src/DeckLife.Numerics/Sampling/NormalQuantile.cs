using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Sampling;

/// <summary>The quantile of the standard normal distribution.</summary>
/// <remarks>
/// Equation: z = sqrt(2) erfinv(2p - 1); a polynomial in -ln(4 p (1 - p)) in the centre, Newton on ln erfc in the tails.
/// Accuracy: error below 2e-15 of the larger of |z| and 1, for p from 1e-300 to 1 - 2^-53. Checked by: LaneMathTests.
/// </remarks>
public static class NormalQuantile
{
    /// <summary>The quantile of one probability.</summary>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <returns>z with Φ(z) = <paramref name="probability"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not strictly between 0 and 1.</exception>
    public static double At(double probability)
    {
        if (!(probability > 0 && probability < 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(probability),
                probability,
                "A probability strictly between 0 and 1 is needed."
            );
        }

        return LaneMathScalar.NormalQuantile(probability);
    }

    /// <summary>The quantiles of many probabilities, by the widest vectors of the machine.</summary>
    /// <param name="probabilities">Strictly between 0 and 1; may be the same span as the result.</param>
    /// <param name="quantiles">Receives as many values.</param>
    public static void At(ReadOnlySpan<double> probabilities, Span<double> quantiles) =>
        VectorFunctions.NormalQuantile(probabilities, quantiles);

    /// <summary>The distribution function Φ.</summary>
    /// <param name="z">Argument.</param>
    public static double Probability(double z) => LaneMathScalar.NormalCdf(z);
}
