using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Diffusion;

/// <summary>A slab that starts empty, one face held at 1, the other sealed (or half of a slab held at both faces).</summary>
/// <remarks>
/// Source: Crank 1975, ch. 4 (from memory; recomputed): images for short times, eigenfunctions for long ones; both
/// series agree to rounding where they meet (ClosedFormTests).
/// </remarks>
public static class FiniteSlab
{
    // At this s/l² each series is short: three pairs of images, or four eigenfunctions, reach rounding.
    private const double Meeting = 0.3;

    /// <summary>Content at a distance from the sealed face.</summary>
    /// <param name="fromSealedFace">x [mm], 0 to the thickness.</param>
    /// <param name="thickness">l [mm].</param>
    /// <param name="clock">s = ∫D dt [mm²].</param>
    public static double Content(double fromSealedFace, double thickness, double clock)
    {
        if (!(clock > 0))
        {
            return fromSealedFace < thickness ? 0 : 1;
        }

        return clock / (thickness * thickness) < Meeting
            ? ByImages(fromSealedFace, thickness, clock)
            : ByEigenfunctions(fromSealedFace, thickness, clock);
    }

    /// <summary>Mass taken up as a share of the final mass.</summary>
    /// <param name="thickness">l [mm].</param>
    /// <param name="clock">s = ∫D dt [mm²].</param>
    public static double UptakeRatio(double thickness, double clock)
    {
        var fourier = clock / (thickness * thickness);
        if (!(fourier > 0))
        {
            return 0;
        }

        double sum = 0;
        if (fourier < Meeting)
        {
            var root = Math.Sqrt(fourier);
            for (var n = 1; n < 40; n++)
            {
                sum += (n % 2 == 0 ? 2 : -2) * RepeatedErfcIntegral.First(n / root);
            }

            return 2 * root * (ErrorFunction.OneOverSqrtPi + sum);
        }

        for (var n = 0; n < 40; n++)
        {
            var wave = (n + 0.5) * Math.PI;
            sum += 2 / (wave * wave) * Math.Exp(-wave * wave * fourier);
        }

        return 1 - sum;
    }

    internal static double ByImages(double fromSealedFace, double thickness, double clock)
    {
        var length = 2 * Math.Sqrt(clock);
        double sum = 0;
        var sign = 1;
        for (var n = 0; n < 100_000; n++)
        {
            var near = (((2 * n) + 1) * thickness) - fromSealedFace;
            if (near > 28 * length)
            {
                break;
            }

            sum +=
                sign
                * (
                    ErrorFunction.Erfc(near / length)
                    + ErrorFunction.Erfc((near + (2 * fromSealedFace)) / length)
                );
            sign = -sign;
        }

        return sum;
    }

    internal static double ByEigenfunctions(double fromSealedFace, double thickness, double clock)
    {
        var fourier = clock / (thickness * thickness);
        double sum = 0;
        var sign = 1;
        for (var n = 0; n < 10_000; n++)
        {
            var wave = (n + 0.5) * Math.PI;
            var decay = Math.Exp(-wave * wave * fourier);
            if (decay < 1e-18)
            {
                break;
            }

            sum += sign * 2 / wave * decay * Math.Cos(wave * fromSealedFace / thickness);
            sign = -sign;
        }

        return 1 - sum;
    }
}
