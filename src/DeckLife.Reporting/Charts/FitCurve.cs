using DeckLife.Fitting;
using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.Reporting.Charts;

/// <summary>
/// The fitted profile drawn as a curve: C(x) = C0 + (Cs − C0) erfc(x / (2 √(D t))). Source: Crank, The Mathematics of
/// Diffusion; the form of ASTM C1556 and NT Build 443.
/// </summary>
internal sealed class FitCurve
{
    private readonly double surface;
    private readonly double background;
    private readonly double length;

    private FitCurve(double surface, double diffusion, double background, double years)
    {
        this.surface = surface;
        this.background = background;
        length = 2 * Math.Sqrt(diffusion * years);
    }

    /// <summary>The curve of a fit, with D as estimated or at one of its limits; nothing where there is no estimate.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="diffusion">D [mm²/yr]; absent: as estimated.</param>
    public static FitCurve? Of(ProfileFit fit, double? diffusion = null)
    {
        var d = diffusion ?? fit.DiffusionCoefficient?.Value;
        var years = fit.Profile.ExposureAge.Years;
        return fit.SurfaceChloride is { } cs && fit.Background is { } c0 && d > 0 && years > 0
            ? new FitCurve(cs.Value, d.Value, c0.Value, years)
            : null;
    }

    /// <summary>The content at a depth [mm] [kg/m³].</summary>
    public double At(double depthMm) =>
        background + ((surface - background) * ErrorFunction.Erfc(depthMm / length));
}
