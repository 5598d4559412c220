namespace DeckLife.Numerics.Diffusion;

/// <summary>A corner of two exposed faces: a fascia, an open joint, or the plane of a crack that carries the surface content.</summary>
/// <remarks>
/// Equation: 1 - erf(x/(2√s)) erf(y/(2√s)), the product of two one-dimensional solutions (Crank 1975, 2.5; Carslaw
/// and Jaeger 1959, 5.6; from memory). Exact for one homogeneous material, both faces held at the same content.
/// Computed as a + b - ab with a and b by erfc, so nothing cancels far from both faces.
/// </remarks>
public static class QuarterSpace
{
    /// <summary>Content under a content of 1 on both faces.</summary>
    /// <param name="fromFirstFace">x [mm].</param>
    /// <param name="fromSecondFace">y [mm].</param>
    /// <param name="clock">s = ∫D dt [mm²].</param>
    public static double ConstantSurface(double fromFirstFace, double fromSecondFace, double clock)
    {
        var first = HalfSpace.ConstantSurface(fromFirstFace, clock);
        var second = HalfSpace.ConstantSurface(fromSecondFace, clock);
        return first + (second * (1 - first));
    }
}
