using DeckLife.Quantities;

namespace DeckLife.Materials;

/// <summary>Brings a tested coefficient to the age that a material's law refers to, by that law: D(t) = Dref (tref/t)^m.</summary>
public static class CoefficientAge
{
    /// <summary>Factor on a coefficient that holds at one moment, such as that of a migration test.</summary>
    /// <param name="test">Age at the test.</param>
    /// <param name="reference">Age that the law refers to.</param>
    /// <param name="exponent">m, 0 up to (not including) 1.</param>
    public static double AtMoment(Age test, Age reference, double exponent) =>
        exponent == 0 ? 1 : Math.Pow(test.Years / reference.Years, exponent);

    /// <summary>Factor on an apparent coefficient, the mean over an immersion, such as that of a bulk diffusion test.</summary>
    /// <param name="start">Age at the start of the immersion.</param>
    /// <param name="immersion">How long the specimen lay in the solution.</param>
    /// <param name="reference">Age that the law refers to.</param>
    /// <param name="exponent">m, 0 up to (not including) 1.</param>
    /// <remarks>Equation: Dapp T = Dref ∫ (tref/t)^m dt over the immersion T, so Dref/Dapp = T (1 − m) / (tref^m ((a + T)^(1−m) − a^(1−m))).</remarks>
    public static double OverImmersion(Age start, Age immersion, Age reference, double exponent)
    {
        if (exponent == 0)
        {
            return 1;
        }

        var (a, t, rest) = (start.Years, immersion.Years, 1 - exponent);
        return t
            * rest
            / (Math.Pow(reference.Years, exponent) * (Math.Pow(a + t, rest) - Math.Pow(a, rest)));
    }
}
