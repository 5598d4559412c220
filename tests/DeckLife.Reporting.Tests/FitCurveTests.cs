using DeckLife.Fitting;
using DeckLife.Reporting.Charts;
using Xunit;

namespace DeckLife.Reporting.Tests;

public class FitCurveTests
{
    [Fact]
    public void Band_Covariance_AgreesWithFiniteDifferencesOfTheCurve()
    {
        var core = InventedProjection.Make().Cores[0];
        double[] covariance = [0.04, -0.01, 0.001, -0.01, 0.02, -0.0005, 0.001, -0.0005, 0.0009];
        var fit = core with { Covariance = [.. covariance], DegreesOfFreedom = 3 };
        var band = FitCurve.Band(fit, [0, 30, 60])!;
        var (cs, d, c0) = (
            fit.SurfaceChloride!.Value,
            fit.DiffusionCoefficient!.Value,
            fit.Background!.Value
        );
        double Curve(double surface, double lnD, double background, double x) =>
            FitCurve
                .Of(
                    fit with
                    {
                        SurfaceChloride = new(surface),
                        Background = new(background),
                    },
                    Math.Exp(lnD)
                )!
                .At(x);
        for (var n = 0; n < 3; n++)
        {
            var x = 30.0 * n;
            const double h = 1e-5;
            var ln = Math.Log(d);
            double[] slope =
            [
                (Curve(cs + h, ln, c0, x) - Curve(cs - h, ln, c0, x)) / (2 * h),
                (Curve(cs, ln + h, c0, x) - Curve(cs, ln - h, c0, x)) / (2 * h),
                (Curve(cs, ln, c0 + h, x) - Curve(cs, ln, c0 - h, x)) / (2 * h),
            ];
            var variance = 0.0;
            for (var i = 0; i < 3; i++)
            {
                for (var j = 0; j < 3; j++)
                {
                    variance += slope[i] * covariance[(3 * i) + j] * slope[j];
                }
            }

            // 3.18245: 97.5 % point of Student's t with 3 degrees of freedom, any table. Tolerance: the differences' error.
            Assert.Equal(3.18245 * Math.Sqrt(variance), band.Upper[n] - FitCurve.Of(fit)!.At(x), 4);
        }
    }

    [Fact]
    public void MeanOver_Slice_IsTheMeanOfTheCurve()
    {
        var curve = FitCurve.Of(InventedProjection.Make().Cores[0])!;
        const int parts = 20000;
        // Midpoint rule: error about (width / parts)^2.
        var mean = Enumerable
            .Range(0, parts)
            .Average(i => curve.At(6.35 + (12.7 * (i + 0.5) / parts)));

        Assert.Equal(mean, curve.MeanOver(6.35, 19.05), 1e-7);
        Assert.NotEqual(curve.At(12.7), curve.MeanOver(6.35, 19.05), 1e-3);
    }

    [Fact]
    public void Band_NoCovarianceNoLimits_Absent()
    {
        var fit = InventedProjection.Make().Cores[0];
        Assert.Equal("D at its 95 % limits", FitCurve.Band(fit, [1])!.Name);
        Assert.Null(
            FitCurve.Band(
                fit with
                {
                    DiffusionCoefficient = new Estimate(20) { MissingReason = "none" },
                },
                [1]
            )
        );
    }
}
