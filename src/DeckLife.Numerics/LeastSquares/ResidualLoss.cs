using DeckLife.Numerics.SpecialFunctions;
using MathNet.Numerics.Distributions;

namespace DeckLife.Numerics.LeastSquares;

/// <summary>Losses of one standardised residual u (twice: the deviance) and their first two derivatives, safe in both tails.</summary>
/// <remarks>
/// Normal: u²/2. Student's t with nu degrees of freedom: (nu + 1)/2 ln(1 + u²/nu). A value known only to lie below its limit: minus the
/// logarithm of the distribution function at u = (limit - mean) / scale. Checked by: ResidualLossTests.
/// </remarks>
public static class ResidualLoss
{
    private const double LogSqrtTwoPi = 0.918938533204672741780329736405617640;
    private const double InverseSqrtTwo = 0.707106781186547524400844362104849039;

    /// <summary>The loss of one residual.</summary>
    /// <param name="u">The standardised residual; for a censored value (limit - mean) / scale.</param>
    /// <param name="censored">Whether the value is known only to lie below its limit.</param>
    /// <param name="studentDegreesOfFreedom">Degrees of freedom of Student's t; absent: normal.</param>
    /// <param name="first">The derivative by u.</param>
    /// <param name="second">The second derivative by u; for a measured value under Student's t the majorising weight, never negative.</param>
    public static double Value(
        double u,
        bool censored,
        double? studentDegreesOfFreedom,
        out double first,
        out double second
    )
    {
        if (studentDegreesOfFreedom is { } nu)
        {
            return censored
                ? StudentCensored(u, nu, out first, out second)
                : StudentMeasured(u, nu, out first, out second);
        }

        if (censored)
        {
            return NormalCensored(u, out first, out second);
        }

        first = u;
        second = 1;
        return 0.5 * u * u;
    }

    /// <summary>-ln Phi(u): the loss of a value known only to lie below its limit, u = (limit - mean) / sd.</summary>
    internal static double NormalCensored(double u, out double first, out double second)
    {
        // The hazard phi(u)/Phi(u); for u far below, Phi(u) = phi(u) (1 - 1/u² + 3/u⁴ - ...) / |u| (Mills' ratio).
        double logPhi;
        double hazard;
        if (u > -25)
        {
            var phi = 0.5 * ErrorFunction.Erfc(-u * InverseSqrtTwo);
            logPhi = u > 5 ? -0.5 * ErrorFunction.Erfc(u * InverseSqrtTwo) : Math.Log(phi);
            hazard = Math.Exp((-0.5 * u * u) - LogSqrtTwoPi) / phi;
        }
        else
        {
            var z = 1 / (u * u);
            var series = 1 - (z * (1 - (3 * z * (1 - (5 * z * (1 - (7 * z)))))));
            logPhi = (-0.5 * u * u) - LogSqrtTwoPi - Math.Log(-u) + Math.Log(series);
            hazard = -u / series;
        }

        first = -hazard;
        second = Math.Max(0, hazard * (u + hazard));
        return -logPhi;
    }

    /// <summary>(nu + 1)/2 ln(1 + u²/nu): the loss of Student's t. The second derivative is the majorising weight, never negative.</summary>
    internal static double StudentMeasured(
        double u,
        double degreesOfFreedom,
        out double first,
        out double second
    )
    {
        second = (degreesOfFreedom + 1) / (degreesOfFreedom + (u * u));
        first = second * u;
        return 0.5 * (degreesOfFreedom + 1) * Math.Log(1 + (u * u / degreesOfFreedom));
    }

    /// <summary>-ln T(u), T the distribution function of Student's t.</summary>
    internal static double StudentCensored(
        double u,
        double degreesOfFreedom,
        out double first,
        out double second
    )
    {
        var below = Math.Max(StudentT.CDF(0, 1, degreesOfFreedom, u), double.Epsilon);
        var density = StudentT.PDF(0, 1, degreesOfFreedom, u);
        var hazard = density / below;
        first = -hazard;
        // d hazard / du = hazard (d ln density / du - hazard); kept positive for a descent step.
        second = Math.Max(
            1e-12,
            hazard * ((u * (degreesOfFreedom + 1) / (degreesOfFreedom + (u * u))) + hazard)
        );
        return -Math.Log(below);
    }
}
