using DeckLife.Fitting;
using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.SpecialFunctions;
using MathNet.Numerics.Distributions;

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

    /// <summary>The curve of a fit, with D as estimated or as given; nothing where there is no estimate.</summary>
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

    /// <summary>Mean content of the curve over a slice [kg/m³].</summary>
    /// <param name="topMm">Top of the slice [mm].</param>
    /// <param name="bottomMm">Bottom of the slice [mm].</param>
    public double MeanOver(double topMm, double bottomMm) =>
        background + ((surface - background) * SliceMean.Value(topMm, bottomMm, length));

    /// <summary>
    /// 95 % limits of the curve at depths: linearised with the covariance of (Cs, ln D, C0) and Student's t, for errors of the kind that the fit's
    /// weights say; where there is no covariance, the curves with D at its own limits; nothing where there are none.
    /// </summary>
    /// <param name="fit">The fit.</param>
    /// <param name="depthsMm">Depths [mm].</param>
    public static FitBand? Band(ProfileFit fit, double[] depthsMm)
    {
        if (Of(fit) is not { } curve)
        {
            return null;
        }

        if (fit.Covariance.Length == 9 && fit.DegreesOfFreedom > 0)
        {
            var t = StudentT.InvCDF(0, 1, fit.DegreesOfFreedom, 0.975);
            var half = depthsMm
                .Select(x => t * curve.StandardErrorAt(x, [.. fit.Covariance]))
                .ToArray();
            if (half.All(double.IsFinite))
            {
                return new(
                    fit.Options.Weights == SliceWeights.Constant
                        ? "95 % limits of the curve, constant errors"
                        : "95 % limits of the curve",
                    [.. depthsMm.Select((x, i) => Math.Max(0, curve.At(x) - half[i]))],
                    [.. depthsMm.Select((x, i) => curve.At(x) + half[i])]
                );
            }
        }

        return
            fit.DiffusionCoefficient is { Lower95: { } low, Upper95: { } high }
            && Of(fit, low) is { } lower
            && Of(fit, high) is { } upper
            ? new(
                "D at its 95 % limits",
                [.. depthsMm.Select(lower.At)],
                [.. depthsMm.Select(upper.At)]
            )
            : null;
    }

    /// <summary>The content at a depth [mm] [kg/m³].</summary>
    public double At(double depthMm) =>
        background + ((surface - background) * ErrorFunction.Erfc(depthMm / length));

    private double StandardErrorAt(double depthMm, double[] covariance)
    {
        var u = depthMm / length;
        var share = ErrorFunction.Erfc(u);
        // d/d ln D of erfc(u): u falls by half of ln D, and erfc' = −2/√π exp(−u²).
        double[] slope =
        [
            share,
            (surface - background) * u / Math.Sqrt(Math.PI) * Math.Exp(-u * u),
            1 - share,
        ];
        var variance = 0.0;
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                variance += slope[i] * covariance[(3 * i) + j] * slope[j];
            }
        }

        return Math.Sqrt(Math.Max(0, variance));
    }
}
