using DeckLife.Fitting;
using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Sampling;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>The batched fit of bootstrap and simulation against the fit of one core: two codes, one answer.</summary>
public class BatchedFitComparisonTests
{
    private const double Years = 25;
    private static readonly double[] Tops = [0, 6, 12, 18, 24, 36, 48, 60];
    private static readonly double[] Bottoms = [6, 12, 18, 24, 36, 48, 60, 75];

    [Theory]
    [InlineData(true, 0.4, 2.570581836)] // Student's t, 97.5 %: 5 degrees of freedom
    [InlineData(false, 0.0, 2.446911851)] // 6
    public void Fit_NoisyCores_IsProfileFittersWithItsLimits(
        bool isFitted,
        double background,
        double student
    )
    {
        const int count = 120;
        var stream = new RandomStream(11, "batched comparison");
        var contents = new double[count * Tops.Length];
        for (var i = 0; i < count; i++)
        {
            var length = 2 * Math.Sqrt(stream.NextLognormal(Math.Log(450), 0.4));
            var surface = stream.NextLognormal(Math.Log(7), 0.3);
            for (var j = 0; j < Tops.Length; j++)
            {
                var z = 0.5 * (Tops[j] + Bottoms[j]) / length;
                contents[(i * Tops.Length) + j] = Math.Max(
                    1e-3,
                    background
                        + (surface * MathNet.Numerics.SpecialFunctions.Erfc(z))
                        + (0.15 * stream.NextNormal())
                );
            }
        }

        var solver = new BatchedProfileFit(Tops, Bottoms);
        var batch = isFitted
            ? solver.FitWithLimits(contents, student, ofAll: true)
            : solver.FitWithLimits(contents, new double[count], student, ofAll: true);
        var options = new ProfileFitOptions
        {
            Background = isFitted ? BackgroundTreatment.Fitted : BackgroundTreatment.Fixed,
            FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0),
            SkipSurface = 0,
            Influence = false,
            LimitsOverErrorKinds = false,
        };
        var compared = 0;
        var backgrounds = 0;
        for (var i = 0; i < count; i++)
        {
            var core = Cores.Slices(
                Years,
                Tops,
                Bottoms,
                contents.AsSpan(i * Tops.Length, Tops.Length).ToArray()
            );
            var fit = ProfileFitter.Fit(core, options);
            if (
                fit.Status == FitStatus.Refused
                || batch.Status[i] != BatchedFitStatus.Converged
                || fit.DiffusionCoefficient is not { Lower95: { } low, Upper95: { } high } d
            )
            {
                continue;
            }

            Near(d.Value * Years, batch.SpreadMm2[i], 1e-6);
            Near(fit.SurfaceChloride!.Value, batch.SurfaceContent[i], 1e-6);
            Assert.Equal(fit.Background!.Value, batch.Background[i], 1e-5);
            Near(low * Years, batch.SpreadLowMm2[i], 1e-6);
            Near(high * Years, batch.SpreadHighMm2[i], 1e-6);
            Near(fit.SurfaceChloride.Lower95!.Value, batch.SurfaceContentLow[i], 1e-5);
            Near(fit.SurfaceChloride.Upper95!.Value, batch.SurfaceContentHigh[i], 1e-5);
            // Where the fitted C0 lies on its bound, one core has no limits.
            if (isFitted && fit.Background is { Lower95: { } least, Upper95: { } most })
            {
                Assert.Equal(least, batch.BackgroundLow[i], 1e-4);
                Assert.Equal(most, batch.BackgroundHigh[i], 1e-4);
                backgrounds++;
            }

            compared++;
        }

        Assert.True(!isFitted || backgrounds > 50, FormattableString.Invariant($"{backgrounds}"));
        Assert.True(compared > 100, FormattableString.Invariant($"{compared} compared"));
    }

    private static void Near(double expected, double found, double tolerance) =>
        Assert.InRange(found / expected, 1 - tolerance, 1 + tolerance);
}
