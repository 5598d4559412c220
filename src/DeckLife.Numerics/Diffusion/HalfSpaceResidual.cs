using DeckLife.Numerics.Quadrature;
using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Diffusion;

/// <summary>What becomes of a given profile in a half space or a whole space, by Green's functions and images.</summary>
/// <remarks>
/// Source: Carslaw and Jaeger 1959, 10.3 and 14.2 (from memory): the kernel g(d) = exp(-d²/(4s))/(2√(πs)), with an
/// image of sign -1 for a surface held at 0 and +1 for a sealed one. Error below 1e-12 of the largest content if
/// the depths at which the profile jumps are named; about 1e-10 of a jump that is not.
/// </remarks>
public static class HalfSpaceResidual
{
    /// <summary>Content at a depth from a profile at time 0, surface held at 0 from then on.</summary>
    /// <param name="depth">x [mm], at least 0.</param>
    /// <param name="clock">s = ∫D dt since then [mm²].</param>
    /// <param name="profile">Content by depth [mm] at time 0.</param>
    /// <param name="profileDepth">Depth below which the profile is 0 [mm].</param>
    /// <param name="breaks">Depths at which the profile jumps or has a kink [mm]; none if absent.</param>
    public static double SurfaceAtZero(
        double depth,
        double clock,
        Func<double, double> profile,
        double profileDepth,
        IReadOnlyList<double>? breaks = null
    ) => Spread(depth, clock, profile, profileDepth, breaks, -1);

    /// <summary>Content at a depth from a profile at time 0, surface sealed from then on.</summary>
    /// <param name="depth">x [mm], at least 0.</param>
    /// <param name="clock">s = ∫D dt since then [mm²].</param>
    /// <param name="profile">Content by depth [mm] at time 0.</param>
    /// <param name="profileDepth">Depth below which the profile is 0 [mm].</param>
    /// <param name="breaks">Depths at which the profile jumps or has a kink [mm]; none if absent.</param>
    public static double Sealed(
        double depth,
        double clock,
        Func<double, double> profile,
        double profileDepth,
        IReadOnlyList<double>? breaks = null
    ) => Spread(depth, clock, profile, profileDepth, breaks, 1);

    /// <summary>Two half spaces brought into contact, equal capacities: content at a distance from the interface.</summary>
    /// <param name="distance">x [mm]: negative in the first medium, positive in the second.</param>
    /// <param name="firstClock">∫D1 dt [mm²].</param>
    /// <param name="secondClock">∫D2 dt [mm²].</param>
    /// <param name="first">Content of the first medium before contact.</param>
    /// <param name="second">Content of the second.</param>
    /// <remarks>Interface content (C1√D1 + C2√D2)/(√D1 + √D2). Source: Carslaw and Jaeger 1959, 2.15 (from memory).</remarks>
    public static double Contact(
        double distance,
        double firstClock,
        double secondClock,
        double first,
        double second
    )
    {
        var (a, b) = (Math.Sqrt(firstClock), Math.Sqrt(secondClock));
        var atInterface = ((first * a) + (second * b)) / (a + b);
        return distance < 0
            ? first + ((atInterface - first) * ErrorFunction.Erfc(-distance / (2 * a)))
            : second + ((atInterface - second) * ErrorFunction.Erfc(distance / (2 * b)));
    }

    private static double Spread(
        double depth,
        double clock,
        Func<double, double> profile,
        double profileDepth,
        IReadOnlyList<double>? breaks,
        int imageSign
    )
    {
        ArgumentNullException.ThrowIfNull(profile);
        if (!(clock > 0))
        {
            return depth > profileDepth ? 0 : profile(depth);
        }

        var spread = 2 * Math.Sqrt(clock);
        double Kernel(double distance) =>
            Math.Exp(-distance * distance / (4 * clock)) / (Math.Sqrt(Math.PI) * spread);
        return PeakedIntegral.Integrate(
            eta => profile(eta) * (Kernel(depth - eta) + (imageSign * Kernel(depth + eta))),
            depth,
            spread,
            profileDepth,
            breaks
        );
    }
}
