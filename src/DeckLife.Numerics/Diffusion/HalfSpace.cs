using System.Numerics;
using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Diffusion;

/// <summary>Closed forms for a half space that starts empty, per unit of the surface law.</summary>
/// <remarks>
/// Equation: C = Γ(p+1) (4t)^p i^(2p)erfc(u), u = x/(2√(Dt)), for a surface content t^p; p = 0 constant, 1/2 square
/// root, 1 linear. Source: Crank, The Mathematics of Diffusion, 1975, ch. 2 and 3 (from memory; recomputed by Laplace
/// inversion); Mejlbro and Poulsen's power law in the form Ψp(u) = Γ(p+1) 4^p i^(2p)erfc(u).
/// The constant law needs only the clock s = ∫D dt, so it holds for any D(t); the laws that grow with time hold for a
/// constant D, or with both t and the law's time replaced by s. Relative error below 1e-12 down to 1e-300, but for the two
/// laws that say otherwise (ClosedFormTests, and transport/* of the reference checks).
/// </remarks>
public static class HalfSpace
{
    /// <summary>Content under a constant surface content of 1.</summary>
    /// <param name="depth">x [mm], at least 0.</param>
    /// <param name="clock">s = ∫D dt [mm²], at least 0.</param>
    public static double ConstantSurface(double depth, double clock) =>
        clock > 0 ? ErrorFunction.Erfc(depth / (2 * Math.Sqrt(clock)))
        : depth > 0 ? 0
        : 1;

    /// <summary>Content under a surface content that grows as t, by 1 a year.</summary>
    /// <param name="depth">x [mm].</param>
    /// <param name="coefficient">D [mm²/yr].</param>
    /// <param name="time">t [yr].</param>
    public static double LinearSurface(double depth, double coefficient, double time) =>
        time > 0
            ? 4 * time * RepeatedErfcIntegral.Second(depth / (2 * Math.Sqrt(coefficient * time)))
            : 0;

    /// <summary>Content under a surface content that grows as √t.</summary>
    /// <param name="depth">x [mm].</param>
    /// <param name="coefficient">D [mm²/yr].</param>
    /// <param name="time">t [yr].</param>
    public static double SquareRootSurface(double depth, double coefficient, double time) =>
        time > 0
            ? Math.Sqrt(Math.PI * time)
                * RepeatedErfcIntegral.First(depth / (2 * Math.Sqrt(coefficient * time)))
            : 0;

    /// <summary>Content under a surface content that grows as t^p.</summary>
    /// <param name="depth">x [mm].</param>
    /// <param name="coefficient">D [mm²/yr].</param>
    /// <param name="time">t [yr].</param>
    /// <param name="exponent">p, from 0 to 10.</param>
    public static double PowerSurface(
        double depth,
        double coefficient,
        double time,
        double exponent
    ) =>
        time > 0
            ? Math.Pow(time, exponent)
                * MejlbroPoulsen(exponent, depth / (2 * Math.Sqrt(coefficient * time)))
        : exponent == 0 && depth == 0 ? 1
        : 0;

    /// <summary>Mejlbro and Poulsen's Ψp(u) = Γ(p+1) 4^p i^(2p)erfc(u): the share of the surface content at depth.</summary>
    /// <param name="exponent">p, from 0 to 10.</param>
    /// <param name="argument">u, at least 0.</param>
    public static double MejlbroPoulsen(double exponent, double argument) =>
        MathNet.Numerics.SpecialFunctions.Gamma(exponent + 1)
        * Math.Pow(4, exponent)
        * RepeatedErfcIntegral.Value(2 * exponent, argument);

    /// <summary>Content under a surface content that grows linearly to 1 and is held from then on.</summary>
    /// <param name="depth">x [mm].</param>
    /// <param name="coefficient">D [mm²/yr].</param>
    /// <param name="time">t [yr].</param>
    /// <param name="plateau">The time at which 1 is reached [yr].</param>
    /// <remarks>A difference of two linear laws: its relative error grows as time/plateau, to 1e-10 where 1 is reached in a ten thousandth of the time.</remarks>
    public static double LinearThenHeldSurface(
        double depth,
        double coefficient,
        double time,
        double plateau
    ) =>
        (
            LinearSurface(depth, coefficient, time)
            - LinearSurface(depth, coefficient, time - plateau)
        ) / plateau;

    /// <summary>Content under a surface content 1 - exp(-kt).</summary>
    /// <param name="depth">x [mm].</param>
    /// <param name="coefficient">D [mm²/yr].</param>
    /// <param name="time">t [yr].</param>
    /// <param name="rate">k [1/yr].</param>
    /// <remarks>
    /// C = erfc(u) - exp(-u²) Re w(√(kt) + iu); for kt below 1 the power series in kt, which does not cancel. Above, the difference
    /// does where u² is large against kt: the error is below 1e-13 of exp(-u²).
    /// </remarks>
    public static double ExponentialSurface(
        double depth,
        double coefficient,
        double time,
        double rate
    )
    {
        if (!(time > 0))
        {
            return 0;
        }

        var u = depth / (2 * Math.Sqrt(coefficient * time));
        var growth = rate * time;
        if (growth < 1)
        {
            // 1 - e^(-kt) = -Σ (-kt)ⁿ/n!, and tⁿ at the surface gives n! (4t)ⁿ i^(2n)erfc(u).
            double sum = 0;
            var factor = -1.0;
            for (var n = 1; n <= 24; n++)
            {
                factor *= -4 * growth;
                var term = factor * RepeatedErfcIntegral.Value(2 * n, u);
                sum += term;
                if (Math.Abs(term) < 1e-17 * Math.Abs(sum))
                {
                    break;
                }
            }

            return sum;
        }

        var transient = Faddeeva.W(new Complex(Math.Sqrt(growth), u)).Real;
        return ErrorFunction.Erfc(u) - (ErrorFunction.ExpOfMinusSquare(u) * transient);
    }

    /// <summary>Flux through the surface under a constant surface content of 1: √(D/(πt)) for a constant D.</summary>
    /// <param name="coefficient">D at the moment [mm²/yr].</param>
    /// <param name="clock">s = ∫D dt [mm²], greater than 0.</param>
    public static double SurfaceFlux(double coefficient, double clock) =>
        coefficient / Math.Sqrt(Math.PI * clock);

    /// <summary>Mass taken up per area under a constant surface content of 1: 2√(s/π) [mm].</summary>
    /// <param name="clock">s = ∫D dt [mm²].</param>
    public static double Uptake(double clock) => 2 * Math.Sqrt(clock / Math.PI);
}
