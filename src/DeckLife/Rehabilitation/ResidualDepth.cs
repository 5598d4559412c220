using MathNet.Numerics;

namespace DeckLife.Rehabilitation;

/// <summary>How deep a profile lies above a content.</summary>
public static class ResidualDepth
{
    /// <summary>Depth below which the content is at most a limit [mm].</summary>
    /// <param name="surface">Surface content Cs [kg/m³].</param>
    /// <param name="background">Background content C0 [kg/m³].</param>
    /// <param name="spreadMm">2 √s of the profile [mm].</param>
    /// <param name="limit">The limit [kg/m³].</param>
    /// <returns>The depth; 0 where the surface is below the limit, infinite where the background is not.</returns>
    /// <remarks>Equation: x = 2 √s erfc⁻¹((limit − C0)/(Cs − C0)).</remarks>
    public static double Above(double surface, double background, double spreadMm, double limit) =>
        surface <= limit ? 0
        : background >= limit ? double.PositiveInfinity
        : spreadMm * SpecialFunctions.ErfcInv((limit - background) / (surface - background));
}
