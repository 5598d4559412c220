using DeckLife.Fitting;
using DeckLife.Numerics.Diffusion;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Two layers: the linear part against other minimisers, limits by their definition, refusals at both sides of their rules.</summary>
public class OverlaidModelTests
{
    private static readonly Depth Overlay = Depth.FromMillimetres(32);
    private static readonly double[] Edges = [0, 6, 12, 18, 25, 32, 42, 54, 66, 80, 95];

    // 10 slices of an overlay of D = 8 on a deck of D = 40 mm²/yr, 50 yr, Cs 10, C0 0.2 kg/m³, each off by the same pattern of ± 0.04.
    private static readonly CoreProfile Noisy = Core(
        0.2,
        [0.04, -0.05, 0.03, 0.02, -0.04, -0.02, 0.05, -0.03, 0.03, -0.04]
    );

    // The means of slices against Simpson's rule over the exact profile; a point is its own content.
    [Fact]
    public void New_SlicesAndPoints_MeansOfTheExactProfile()
    {
        var core = Cores.Slices(50, [0, 6, 20, 25, 40], [6, 20, 20, 45, 60], [9, 7, 5, 3, 1]);
        var shares = new OverlaidShares([.. core.Slices], 32, 50, null);
        var share = new double[5];

        shares.New(Math.Log(8), Math.Log(40), share);

        var media = new TwoMedia(32, 5);
        double At(double x) => media.ConstantSurface(x, 400);
        Assert.Equal(Mean(At, 0, 6), share[0], 1e-8);
        Assert.Equal(Mean(At, 6, 20), share[1], 1e-8);
        Assert.Equal(At(20), share[2], 1e-12);
        // Across the interface the slope breaks: each side by itself.
        Assert.Equal(((7 * Mean(At, 25, 32)) + (13 * Mean(At, 32, 45))) / 20, share[3], 1e-8);
        Assert.Equal(Mean(At, 40, 60), share[4], 1e-8);
        Assert.False(shares.HasOldSalt);
        shares.Old(Math.Log(8), Math.Log(40), share);
        Assert.All(share, s => Assert.Equal(0, s));
    }

    // No overlay time to speak of: the salt lies where it lay, erfc((x - thickness + removed) / 2 sqrt(D t)) in the deck, none in the overlay.
    [Fact]
    public void Old_JustOverlaid_WhereItLay()
    {
        var core = Cores.Points(0.001, [10, 31, 40, 60, 90], [1, 1, 1, 1, 1]);
        var old = new OldDeckSalt(Age.FromYears(30), Depth.FromMillimetres(6));
        var shares = new OverlaidShares([.. core.Slices], 32, 0.001, old);
        var share = new double[5];

        shares.Old(Math.Log(8), Math.Log(25), share);

        var length = 2 * Math.Sqrt(25 * 30);
        Assert.True(shares.HasOldSalt);
        Assert.Equal(0, share[0], 1e-9);
        Assert.Equal(0, share[1], 1e-9);
        for (var i = 2; i < 5; i++)
        {
            var depth = core.Slices[i].CentreMm - 32 + 6;
            Assert.Equal(MathNet.Numerics.SpecialFunctions.Erfc(depth / length), share[i], 2e-3);
        }
    }

    // Old salt in one medium, far from both ends of time: superposition says that old salt and its complement to a half space full of 1 add up.
    [Fact]
    public void Old_AllOfTheDeckFull_TheSpreadOfAStep()
    {
        var core = Cores.Points(4, [20, 32, 40, 50], [1, 1, 1, 1]);
        // So long an exposure before that the deck is full: erfc of nearly 0 over the depths that matter.
        var old = new OldDeckSalt(Age.FromYears(1e7), Depth.FromMillimetres(0));
        var shares = new OverlaidShares([.. core.Slices], 32, 4, old);
        var share = new double[4];

        shares.Old(Math.Log(20), Math.Log(20), share);

        // Half space with a surface held at 0 and content 1 below 32 mm: (erfc((h - x)/l) - erfc((h + x)/l)) / 2, l = 2 sqrt(20 × 4).
        var l = 2 * Math.Sqrt(80);
        for (var i = 0; i < 4; i++)
        {
            var x = core.Slices[i].CentreMm;
            var step =
                0.5
                * (
                    MathNet.Numerics.SpecialFunctions.Erfc((32 - x) / l)
                    - MathNet.Numerics.SpecialFunctions.Erfc((32 + x) / l)
                );
            Assert.Equal(step, share[i], 5e-3);
        }
    }

    // Milled deeper than the salt went: nothing is left of it.
    [Fact]
    public void Old_AllMilledOff_Nothing()
    {
        var core = Cores.Points(4, [20, 32, 40, 50], [1, 1, 1, 1]);
        var old = new OldDeckSalt(Age.FromYears(30), Depth.FromMillimetres(1000));
        var share = new double[] { 7, 7, 7, 7 };

        new OverlaidShares([.. core.Slices], 32, 4, old).Old(Math.Log(8), Math.Log(25), share);

        Assert.All(share, s => Assert.Equal(0, s));
    }

    // Best linear part with every part at least 0, by coordinate descent: the sum of squares is convex.
    [Theory]
    [InlineData(2.0, 3.7, false, false)]
    [InlineData(1.0, 2.0, false, true)]
    [InlineData(3.0, 4.0, true, false)]
    [InlineData(2.2, 3.0, true, true)]
    public void At_Parts_LeastSquaresWithNoneBelowZero(
        double lnOverlay,
        double lnDeck,
        bool withOld,
        bool held
    )
    {
        var old = withOld ? new OldDeckSalt(Age.FromYears(30), Depth.FromMillimetres(6)) : null;
        var (fresh, under) = (new double[10], new double[10]);
        var empty = new OverlaidShares([.. Noisy.Slices], 32, 50, old);
        empty.New(lnOverlay, lnDeck, fresh);
        empty.Old(lnOverlay, lnDeck, under);
        // Old salt of 3 kg/m³ beside what is there.
        var core = Noisy.With(s =>
            s with
            {
                Content = ChlorideContent.FromKilogramsPerCubicMetre(
                    s.Content.KilogramsPerCubicMetre + (3 * under[s.Row - 2])
                ),
            }
        );
        var model = new OverlaidModel(
            new OverlaidShares([.. core.Slices], 32, 50, old),
            held ? 0.15 : null
        );
        var point = model.At(lnOverlay, lnDeck);
        double Sum(double excess, double oldExcess, double background) =>
            Enumerable
                .Range(0, 10)
                .Sum(i =>
                    Math.Pow(
                        core.Slices[i].Content.KilogramsPerCubicMetre
                            - background
                            - (excess * fresh[i])
                            - (oldExcess * under[i]),
                        2
                    )
                );

        var (e, o, b) = (5.0, withOld ? 1.0 : 0, held ? 0.15 : 0.2);
        for (var round = 0; round < 4000; round++)
        {
            e = Vertex(x => Sum(x, o, b));
            o = withOld ? Vertex(x => Sum(e, x, b)) : 0;
            b = held ? 0.15 : Vertex(x => Sum(e, o, x));
        }

        Assert.Equal(Sum(e, o, b), point.Sum, 1e-6 * point.Sum);
        Assert.Equal(Sum(point.Excess, point.OldExcess, point.Background), point.Sum, 1e-9);
        Assert.True(point.Excess >= 0 && point.OldExcess >= 0 && point.Background >= 0);
        Assert.Equal(held ? 0.15 : point.Background, point.Background);
        Assert.Equal(1 + (withOld ? 1 : 0) + (held ? 0 : 1), model.LinearParameters);
    }

    [Fact]
    public void Derivatives_AtAPoint_DifferencesOfTheFittedContents()
    {
        var shares = new OverlaidShares(
            [.. Noisy.Slices],
            32,
            50,
            new OldDeckSalt(Age.FromYears(30), Depth.FromMillimetres(6))
        );
        var model = new OverlaidModel(shares, null);
        var point = new OverlaidPoint(0, 9, 2, 0.3);
        var rows = model.Derivatives(2, 3.5, point);
        double[] Contents(double x, double y, double cs, double old, double c0)
        {
            var (fresh, under) = (new double[10], new double[10]);
            shares.New(x, y, fresh);
            shares.Old(x, y, under);
            return [.. fresh.Zip(under, (p, q) => c0 + ((cs - c0) * p) + ((old - c0) * q))];
        }

        const double Step = 1e-4;
        for (var k = 0; k < 5; k++)
        {
            double S(int j) => j == k ? Step : 0;
            var above = Contents(2 + S(0), 3.5 + S(1), 9.3 + S(2), 2.3 + S(3), 0.3 + S(4));
            var below = Contents(2 - S(0), 3.5 - S(1), 9.3 - S(2), 2.3 - S(3), 0.3 - S(4));
            for (var i = 0; i < 10; i++)
            {
                Assert.Equal((above[i] - below[i]) / (2 * Step), rows[(5 * i) + k], 1e-5);
            }
        }
    }

    // F(1, n - p) cut on the sum of squares, the other D followed by a search of its own here; 10 slices less 4 parameters: t = 2.446912.
    [Fact]
    public void Limits_OfEachLayer_LeastSumOfSquaresIsAtTheCut()
    {
        var fit = OverlaidProfileFitter.Fit(Noisy, Overlay);
        var model = new OverlaidModel(new OverlaidShares([.. Noisy.Slices], 32, 50, null), null);
        var least = fit.Slices.Sum(s => Math.Pow(s.Measured - s.Fitted, 2));
        var cut = least * (1 + (2.446912 * 2.446912 / 6));

        Assert.Equal(6, fit.DegreesOfFreedom);
        Assert.Equal(Math.Sqrt(least / 6), fit.ResidualStandardDeviation!.Value, 1e-12);
        foreach (var overlay in (bool[])[true, false])
        {
            var d = overlay ? fit.OverlayDiffusion! : fit.DeckDiffusion!;
            var other = Math.Log((overlay ? fit.DeckDiffusion! : fit.OverlayDiffusion!).Value);
            foreach (var limit in (double?[])[d.Lower95, d.Upper95])
            {
                if (limit is { } l)
                {
                    Assert.Equal(1, Follow(model, Math.Log(l), overlay, other) / cut, 2e-3);
                }
            }

            Assert.True(d.Lower95 < d.Value && d.Value < d.Upper95);
            Assert.Equal("profile likelihood, F(1, 6) cut, constant errors", d.LimitMethod);
        }
    }

    // Standard errors: s² times the inverse of J'J of the four free numbers, inverted here by another library call; t either side of Cs and C0.
    [Fact]
    public void Errors_FourFreeNumbers_InverseOfTheInformation()
    {
        var fit = OverlaidProfileFitter.Fit(Noisy, Overlay);
        var model = new OverlaidModel(new OverlaidShares([.. Noisy.Slices], 32, 50, null), null);
        var (x, y) = (Math.Log(fit.OverlayDiffusion!.Value), Math.Log(fit.DeckDiffusion!.Value));
        var rows = model.Derivatives(x, y, model.At(x, y));
        int[] free = [0, 1, 2, 4];
        var j = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.Dense(
            10,
            4,
            (r, c) => rows[(5 * r) + free[c]]
        );
        var inverse = (j.Transpose() * j).Inverse();
        double Error(int k) => fit.ResidualStandardDeviation!.Value * Math.Sqrt(inverse[k, k]);

        Assert.Equal(
            1,
            fit.OverlayDiffusion.StandardError!.Value / (fit.OverlayDiffusion.Value * Error(0)),
            1e-6
        );
        Assert.Equal(
            1,
            fit.DeckDiffusion.StandardError!.Value / (fit.DeckDiffusion.Value * Error(1)),
            1e-6
        );
        Assert.Equal(1, fit.SurfaceChloride!.StandardError!.Value / Error(2), 1e-6);
        Assert.Equal(1, fit.Background!.StandardError!.Value / Error(3), 1e-6);
        Assert.Equal(
            fit.SurfaceChloride.Value - (2.446912 * Error(2)),
            fit.SurfaceChloride.Lower95!.Value,
            1e-4
        );
        Assert.Equal(
            fit.SurfaceChloride.Value + (2.446912 * Error(2)),
            fit.SurfaceChloride.Upper95!.Value,
            1e-4
        );
        Assert.Equal("plain: estimate ± t s.e., constant errors", fit.SurfaceChloride.LimitMethod);
        Assert.Null(fit.SurfaceChloride.MissingReason);
    }

    [Fact]
    public void Fit_BackgroundHeld_HeldAndOneMoreDegreeOfFreedom()
    {
        var fit = OverlaidProfileFitter.Fit(
            Noisy,
            Overlay,
            new ProfileFitOptions
            {
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.2),
            }
        );

        Assert.Equal(7, fit.DegreesOfFreedom);
        Assert.Equal(
            (0.2, true, "held, not estimated"),
            (fit.Background!.Value, fit.Background.IsFixed, fit.Background.MissingReason)
        );
        Assert.InRange(fit.SurfaceChloride!.Value, 9.8, 10.2);
        Assert.Equal(FitStatus.Fitted, fit.Status);
        Assert.Null(fit.Reason);
    }

    // Contents that all lie 0.3 below those of a clean deck: least squares wants a background below 0.
    [Fact]
    public void Fit_BackgroundAtItsBound_LimitedAndSaid()
    {
        var low = Core(0.2, [0, -0.05, -0.1, -0.1, -0.15, -0.2, -0.25, -0.3, -0.25, -0.21]);
        var fit = OverlaidProfileFitter.Fit(
            low.With(s =>
                s with
                {
                    Content = ChlorideContent.FromKilogramsPerCubicMetre(
                        Math.Max(0, s.Content.KilogramsPerCubicMetre - 0.1)
                    ),
                }
            ),
            Overlay
        );

        Assert.True(fit.Background!.IsAtBound);
        Assert.Equal(0, fit.Background.Value);
        Assert.Equal("at its bound 0: no standard error", fit.Background.MissingReason);
        Assert.Null(fit.Background.StandardError);
        Assert.Equal(FitStatus.Limited, fit.Status);
        Assert.Contains("The background is at its bound 0.", fit.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_SlicesInAnyOrder_SameNumbers()
    {
        var reversed = OverlaidProfileFitter.Fit(
            Noisy with
            {
                Slices = [.. Noisy.Slices.Reverse()],
            },
            Overlay
        );
        var fit = OverlaidProfileFitter.Fit(Noisy, Overlay);

        Assert.Equal(fit.OverlayDiffusion, reversed.OverlayDiffusion);
        Assert.Equal(fit.Slices.Select(s => s.Row), reversed.Slices.Select(s => s.Row));
    }

    public static TheoryData<int[], bool, string?> Few =>
        new()
        {
            // Kept slices: three of the overlay (centres 3, 9, 15 mm), two of the deck (37, 48).
            { [0, 1, 2, 5, 6], false, null },
            {
                [0, 1, 5, 6],
                false,
                "2 slice(s) in the overlay and 2 in the deck; 4 free parameters need at least 5 slices, two of them in each layer."
            },
            { [0, 1, 5, 6], true, null },
            {
                [0, 1, 2, 3, 5],
                false,
                "4 slice(s) in the overlay and 1 in the deck; 4 free parameters need at least 5 slices, two of them in each layer."
            },
            {
                [0, 5, 6, 7],
                true,
                "1 slice(s) in the overlay and 3 in the deck; 3 free parameters need at least 4 slices, two of them in each layer."
            },
        };

    [Theory]
    [MemberData(nameof(Few))]
    public void Fit_FewSlices_RefusedByTheCountOfEachLayer(int[] kept, bool held, string? text)
    {
        var fit = OverlaidProfileFitter.Fit(
            Noisy with
            {
                Slices = [.. kept.Select(i => Noisy.Slices[i])],
            },
            Overlay,
            held
                ? new ProfileFitOptions
                {
                    Background = BackgroundTreatment.Fixed,
                    FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.2),
                }
                : null
        );

        Assert.Equal(text is not null, fit.Flags.Any(f => f.Code == "DL2060"));
        if (text is not null)
        {
            Assert.Equal(FitStatus.Refused, fit.Status);
            Assert.StartsWith(text, fit.Reason, StringComparison.Ordinal);
        }

        Assert.Equal(kept.Length, fit.Points);
    }

    [Fact]
    public void Fit_NoExposureOrNonDetects_RefusedInWords()
    {
        Assert.StartsWith(
            "The exposure age is 0 yr; it must be above 0.",
            OverlaidProfileFitter
                .Fit(Noisy with { ExposureAge = Age.FromYears(0) }, Overlay)
                .Reason,
            StringComparison.Ordinal
        );
        Assert.StartsWith(
            "2 slice(s) are below detection",
            OverlaidProfileFitter
                .Fit(Noisy.With(s => s with { IsNonDetect = s.Row > 9 }), Overlay)
                .Reason,
            StringComparison.Ordinal
        );
        Assert.Throws<ArgumentNullException>(() => OverlaidProfileFitter.Fit(null!, Overlay));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            OverlaidProfileFitter.Fit(Noisy, Depth.FromMillimetres(0))
        );
    }

    [Fact]
    public void Fit_OnACrack_Said() =>
        Assert.Contains(
            OverlaidProfileFitter.Fit(Noisy with { OnCrack = true }, Overlay).Flags,
            f => f.Code == "DL2014"
        );

    // A search that ends before the cut leaves no limit there.
    [Fact]
    public void Limits_SearchIntervalNarrow_AbsentOnThatSideAndSaid()
    {
        var free = OverlaidProfileFitter.Fit(Noisy, Overlay);
        var high = 0.5 * (free.DeckDiffusion!.Value + free.DeckDiffusion.Upper95!.Value);
        var fit = OverlaidProfileFitter.Fit(
            Noisy,
            Overlay,
            new ProfileFitOptions
            {
                SearchLow = DiffusionCoefficient.FromSquareMillimetresPerYear(1),
                SearchHigh = DiffusionCoefficient.FromSquareMillimetresPerYear(high),
            }
        );

        Assert.Equal(1, fit.DeckDiffusion!.Value / free.DeckDiffusion.Value, 1e-4);
        Assert.Null(fit.DeckDiffusion.Upper95);
        Assert.NotNull(fit.DeckDiffusion.Lower95);
        Assert.NotNull(fit.OverlayDiffusion!.Upper95);
        Assert.Equal(
            "a limit lies beyond the search interval of D",
            fit.DeckDiffusion.MissingReason
        );
        Assert.Null(fit.OverlayDiffusion.MissingReason);
        Assert.Equal(
            FormattableString.Invariant(
                $"The upper 95 % limit of D of the deck lies outside the search for D (1 to {high:0.###} mm2/yr): the slices do not bound it."
            ),
            fit.Reason
        );
    }

    private static double Follow(OverlaidModel model, double x, bool overlay, double start)
    {
        double Sum(double y) => (overlay ? model.At(x, y) : model.At(y, x)).Sum;
        const double Share = 0.6180339887498949;
        var (left, right) = (start - 2, start + 2);
        for (var i = 0; i < 30; i++)
        {
            var (a, b) = (right - (Share * (right - left)), left + (Share * (right - left)));
            if (Sum(a) < Sum(b))
            {
                right = b;
            }
            else
            {
                left = a;
            }
        }

        return Sum(0.5 * (left + right));
    }

    private static double Vertex(Func<double, double> parabola)
    {
        var (a, b, c) = (parabola(0), parabola(1), parabola(2));
        return Math.Max(0, 0.5 - ((b - a) / (a + c - (2 * b))));
    }

    private static double Mean(Func<double, double> f, double a, double b)
    {
        const int Panels = 400;
        double sum = 0;
        for (var i = 0; i <= Panels; i++)
        {
            sum +=
                (
                    i is 0 or Panels ? 1
                    : i % 2 == 1 ? 4
                    : 2
                ) * f(a + ((b - a) * i / Panels));
        }

        return sum / (3 * Panels);
    }

    private static CoreProfile Core(double background, double[] errors)
    {
        var media = new TwoMedia(32, 5);
        return Cores.Slices(
            50,
            Edges[..^1],
            Edges[1..],
            [
                .. errors.Select(
                    (e, i) =>
                        background
                        + (
                            (10 - background)
                            * Mean(x => media.ConstantSurface(x, 400), Edges[i], Edges[i + 1])
                        )
                        + e
                ),
            ]
        );
    }
}
