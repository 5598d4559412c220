using DeckLife.Fitting;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class ProfileFitterTests
{
    private static readonly ProfileFitOptions Held = new()
    {
        Background = BackgroundTreatment.Fixed,
        FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.10),
        SkipSurface = 0,
    };

    // Regressions computed in 40-digit arithmetic from the stated data (unweighted least squares, s.e. = sqrt(s² inv(J'J))).
    [Fact]
    public void Fit_PointsWithBackgroundHeld_AllDigitsOfTheRegression()
    {
        var fit = ProfileFitter.Fit(Cores.PointsOne(), Held);

        Assert.Equal(FitStatus.Fitted, fit.Status);
        Close(4.80020676143, fit.SurfaceChloride!.Value, 3e-12);
        Close(0.09577954954, fit.SurfaceChloride.StandardError!.Value, 1e-9);
        Close(32.5278291639, fit.DiffusionCoefficient!.Value, 3e-12);
        Close(2.144041562, fit.DiffusionCoefficient.StandardError!.Value, 1e-9);
        Close(-0.654994412, fit.Correlation!.Value, 1e-8);
        Close(0.9953933162, fit.RSquared!.Value, 1e-9);
        Close(Math.Sqrt(0.0764873047147 / 6), fit.ResidualStandardDeviation!.Value, 1e-11);
    }

    [Fact]
    public void Fit_FirstPointLeftOut_AllDigitsOfTheRegression()
    {
        var fit = ProfileFitter.Fit(Cores.PointsOne(), Held with { SkipSurface = 1 });

        Close(5.04783896678, fit.SurfaceChloride!.Value, 3e-12);
        Close(0.04786188613, fit.SurfaceChloride.StandardError!.Value, 1e-9);
        Close(29.568384634, fit.DiffusionCoefficient!.Value, 2e-11);
        Close(0.7289679024, fit.DiffusionCoefficient.StandardError!.Value, 1e-9);
        Close(-0.774562201, fit.Correlation!.Value, 1e-8);
        Close(0.9994266738, fit.RSquared!.Value, 1e-9);
        Assert.Equal(2, Assert.Single(fit.Excluded).Row);
        Assert.NotNull(fit.Alternative);
    }

    [Fact]
    public void Fit_BackgroundFree_AllDigitsOfTheRegression()
    {
        var fit = ProfileFitter.Fit(Cores.PointsOne(), new ProfileFitOptions { SkipSurface = 1 });

        Close(5.05257751086, fit.SurfaceChloride!.Value, 3e-12);
        Close(0.06400580695, fit.SurfaceChloride.StandardError!.Value, 1e-9);
        Close(29.3506408722, fit.DiffusionCoefficient!.Value, 3e-12);
        Close(1.802056946, fit.DiffusionCoefficient.StandardError!.Value, 1e-9);
        Close(0.108095780923, fit.Background!.Value, 1e-11);
        Close(0.06026234619, fit.Background.StandardError!.Value, 1e-9);
        Close(Math.Sqrt(0.00672923955195 / 4), fit.ResidualStandardDeviation!.Value, 1e-10);
    }

    [Fact]
    public void Fit_BulkDiffusionTest_AllDigitsOfTheRegression()
    {
        // Percent by mass carried as kg/m³: the fit is linear in the unit of content.
        var core = Cores.Points(
            35 / 365.25,
            [0.5, 1.5, 2.5, 4, 6, 8, 10.5, 14],
            [0.79, 0.745, 0.668, 0.561, 0.425, 0.313, 0.196, 0.089]
        );
        var held = Held with
        {
            FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.012),
        };

        var all = ProfileFitter.Fit(core, held);
        var inner = ProfileFitter.Fit(core, held with { SkipSurface = 1 });

        Close(0.849515405409, all.SurfaceChloride!.Value, 3e-12);
        Close(393.803797617, all.DiffusionCoefficient!.Value, 3e-12);
        Close(0.867460645618, inner.SurfaceChloride!.Value, 3e-12);
        Close(0.00467744897, inner.SurfaceChloride.StandardError!.Value, 1e-8);
        Close(377.073639881, inner.DiffusionCoefficient!.Value, 3e-12);
        Close(6.24990255, inner.DiffusionCoefficient.StandardError!.Value, 1e-8);
    }

    [Fact]
    public void Fit_SixPointsOfThirtyYears_OneAnswerWithoutStart()
    {
        // Six mid-depth contents from 0.5 to 3 in, background 0; D = 2.412e-12 m²/s and Cs = 8.209 lb/yd³ by an independent fit.
        var depth = new[] { 0.5, 1, 1.5, 2, 2.5, 3 }.Select(x => x * 25.4).ToArray();
        var pounds = new[] { 6.95, 5.93, 4.71, 3.44, 2.98, 2.19 };
        var core = Cores.Points(
            30,
            depth,
            [
                .. pounds.Select(p =>
                    ChlorideContent.FromPoundsPerCubicYard(p).KilogramsPerCubicMetre
                ),
            ]
        );

        var fit = ProfileFitter.Fit(
            core,
            Held with
            {
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0),
            }
        );

        Assert.Equal(FitStatus.Fitted, fit.Status);
        Close(4.870, fit.SurfaceChloride!.Value, 1.1e-4);
        Close(76.11, fit.DiffusionCoefficient!.Value, 7e-5);
        Close(-11.6177, Math.Log10(76.11 / 31.5576 * 1e-12), 1e-5);
        Assert.Contains("DL2011", fit.Codes());
    }

    [Fact]
    public void Fit_BackgroundAtItsBound_SaidWithOneSidedLimitAndFiniteErrorOfD()
    {
        var fit = ProfileFitter.Fit(
            Cores.Slices(
                20,
                [6, 13, 19, 25, 38, 51, 64],
                [13, 19, 25, 38, 51, 64, 76],
                [3.10, 2.31, 1.62, 0.83, 0.19, 0.02, 0.0]
            )
        );

        Assert.Equal(FitStatus.Limited, fit.Status);
        Assert.Contains("background is 0", fit.Reason, StringComparison.Ordinal);
        Assert.True(fit.Background!.IsAtBound);
        Assert.Null(fit.Background.Lower95);
        Assert.Null(fit.Background.StandardError);
        Assert.NotNull(fit.Background.MissingReason);
        Assert.InRange(fit.Background.Upper95!.Value, 1e-4, 0.5);
        Assert.InRange(fit.DiffusionCoefficient!.StandardError!.Value, 0.1, 10);
        Assert.True(fit.DiffusionCoefficient.Lower95 < fit.DiffusionCoefficient.Value);
        Assert.True(fit.DiffusionCoefficient.Upper95 > fit.DiffusionCoefficient.Value);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(2)]
    public void Fit_ThreePointsOrFewer_RefusedWithReason(int count)
    {
        var fit = ProfileFitter.Fit(
            Cores.Slices(
                20,
                [.. new double[] { 6, 13, 19 }.Take(count)],
                [.. new double[] { 13, 19, 25 }.Take(count)],
                [.. new[] { 3.1, 2.3, 1.6 }.Take(count)]
            )
        );

        Assert.Equal(FitStatus.Refused, fit.Status);
        Assert.Equal("DL2051", fit.Flags[^1].Code);
        Assert.Equal(fit.Flags[^1].Text, fit.Reason);
        Assert.Null(fit.SurfaceChloride);
        Assert.Null(fit.DiffusionCoefficient);
        Assert.Null(fit.Background);
    }

    [Fact]
    public void Fit_ThreePointsWithBackgroundHeld_Fitted()
    {
        var fit = ProfileFitter.Fit(
            Cores.Slices(20, [6, 13, 19], [13, 19, 25], [3.1, 2.3, 1.6]),
            Held with
            {
                SkipSurface = null,
            }
        );

        Assert.NotEqual(FitStatus.Refused, fit.Status);
        Assert.True(double.IsFinite(fit.DiffusionCoefficient!.StandardError!.Value));
        Assert.Equal(1, fit.DegreesOfFreedom);
    }

    [Fact]
    public void Fit_NoSliceAtAll_RefusedNotThrown() =>
        Assert.Equal(FitStatus.Refused, ProfileFitter.Fit(Cores.Slices(20, [], [], [])).Status);

    [Fact]
    public void Fit_RisingProfile_RefusedWithKendallsTau()
    {
        // Contents of a marine core in lb/yd³ [Florida DOT, 2001: see the reference checks].
        var fit = ProfileFitter.Fit(Cores.HalfInch(11, [16.26, 3.97, 7.35, 9.59, 12.6, 11.55]));

        Assert.Equal(FitStatus.Refused, fit.Status);
        Assert.Equal("DL2053", fit.Flags[^1].Code);
        // By hand: of the 10 pairs of the lower five slices 9 rise and 1 falls.
        Assert.Contains("0.80", fit.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_FlatProfile_Refused() =>
        Assert.Equal(
            "DL2054",
            ProfileFitter.Fit(Cores.HalfInch(20, [2, 2, 2, 2, 2, 2])).Flags[^1].Code
        );

    [Fact]
    public void Fit_AllBelowDetection_Refused() =>
        Assert.Equal(
            "DL2052",
            ProfileFitter
                .Fit(Cores.HalfInch(20, [0.2, 0.2, 0.2, 0.2, 0.2], [true, true, true, true, true]))
                .Flags[^1]
                .Code
        );

    [Fact]
    public void Fit_NearlyFlat_RefusedAtTheUpperEnd()
    {
        // A straight line a + b x with C0 >= 0 bounds L by 2 a / (sqrt(pi) b): here 27 times the deepest centre.
        var fit = ProfileFitter.Fit(Cores.HalfInch(20, [3.00, 2.99, 2.98, 2.97, 2.96, 2.95, 2.94]));

        Assert.Equal("DL2055", fit.Flags[^1].Code);
        Assert.Contains("upper", fit.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_StraightLine_LimitedByTheBackgroundsBound()
    {
        var fit = ProfileFitter.Fit(Cores.HalfInch(20, [6.0, 5.4, 4.8, 4.2, 3.6, 3.0]));

        Assert.Equal(FitStatus.Limited, fit.Status);
        Assert.True(fit.Background!.IsAtBound);
    }

    [Fact]
    public void Fit_OnlyTheFirstSliceHoldsSalt_RefusedAtTheLowerEnd()
    {
        var fit = ProfileFitter.Fit(
            Cores.HalfInch(20, [9.0, 0.20, 0.16, 0.19, 0.14, 0.15]),
            new ProfileFitOptions { Background = BackgroundTreatment.Fitted }
        );

        Assert.NotEqual(FitStatus.Fitted, fit.Status);
        Assert.NotNull(fit.Reason);
    }

    [Fact]
    public void Fit_NoExposure_Refused() =>
        Assert.Equal(
            "DL2057",
            ProfileFitter.Fit(Cores.HalfInch(0, [9, 6, 4, 2, 1, 0.5])).Flags[^1].Code
        );

    [Fact]
    public void Fit_SkinAndCarryDown_SkinLeftOutBothShownDeepSliceKept()
    {
        var core = Cores.Slices(
            22,
            [0, 6.35, 19.05, 31.75, 44.45, 57.15, 69.85],
            [6.35, 19.05, 31.75, 44.45, 57.15, 69.85, 82.55],
            [.. new[] { 4.0, 8.8, 6.1, 3.9, 2.2, 1.2, 1.9 }.Select(p => p * 0.593276421257783)]
        );

        var fit = ProfileFitter.Fit(core);

        Assert.Equal(2, Assert.Single(fit.Excluded).Row);
        Assert.Contains("DL2001", fit.Codes());
        Assert.Contains("DL2004", fit.Codes());
        Assert.Equal(6, fit.Points);
        Assert.Equal(7, fit.Alternative!.Points);
        Assert.True(fit.Alternative.SurfaceChloride!.Value < fit.SurfaceChloride!.Value);
    }

    [Fact]
    public void Fit_PeakWithinNoise_FlaggedNotLeftOut()
    {
        // 8.8 against 8.0: 0.8 / (0.08 sqrt(8.8² + 8.0²)) = 0.84 combined standard deviations.
        var fit = ProfileFitter.Fit(Cores.HalfInch(22, [8.0, 8.8, 5.9, 3.7, 2.1, 1.1]));

        Assert.Empty(fit.Excluded);
        Assert.Contains("DL2002", fit.Codes());
        Assert.Null(fit.Alternative);
    }

    [Fact]
    public void Fit_NonDetects_NeitherZeroNorDropped()
    {
        double[] pounds = [9.1, 5.2, 2.3, 0.7, 0.20, 0.20];
        bool[] below = [false, false, false, false, true, true];

        var fit = ProfileFitter.Fit(Cores.HalfInch(20, pounds, below));
        var zero = ProfileFitter.Fit(Cores.HalfInch(20, [9.1, 5.2, 2.3, 0.7, 0, 0]));
        var dropped = ProfileFitter.Fit(Cores.HalfInch(20, [9.1, 5.2, 2.3, 0.7]));

        Assert.NotEqual(FitStatus.Refused, fit.Status);
        Assert.Equal(6, fit.Points);
        Assert.Contains("DL2012", fit.Codes());
        Assert.NotEqual(zero.DiffusionCoefficient!.Value, fit.DiffusionCoefficient!.Value, 1e-6);
        Assert.NotEqual(dropped.DiffusionCoefficient!.Value, fit.DiffusionCoefficient.Value, 1e-6);
        // The model keeps the non-detects below, or near, their limit.
        Assert.All(
            fit.Slices.Where(s => s.IsNonDetect),
            s => Assert.True(s.Fitted < s.Measured + s.StandardDeviation)
        );
    }

    private static void Close(double expected, double found, double relative) =>
        Assert.True(
            Math.Abs(found - expected) <= relative * Math.Abs(expected),
            FormattableString.Invariant($"expected {expected:R}, found {found:R}")
        );
}
