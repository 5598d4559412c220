using DeckLife.Fitting;
using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;
using DeckLife.Quantities;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Laws that a fit obeys whatever the data: units, order, duplicates, subdivision, recovery.</summary>
public class ProfileLawsTests
{
    /// <summary>A simulated core and what it was made from.</summary>
    public sealed record Simulated(
        double Surface,
        double D,
        double Background,
        double Years,
        int Slices,
        int Seed
    )
    {
        public CoreProfile Core(double noise)
        {
            var random = new RandomStream((ulong)Seed, "profile laws");
            var width = 75.0 / Slices;
            var length = 2 * Math.Sqrt(D * Years);
            double[] top = [.. Enumerable.Range(0, Slices).Select(i => 6 + (width * i))];
            double[] bottom = [.. top.Select(x => x + width)];
            return Cores.Slices(
                Years,
                top,
                bottom,
                [
                    .. top.Zip(
                        bottom,
                        (a, b) =>
                            Math.Max(
                                0,
                                Background
                                    + ((Surface - Background) * SliceMean.Value(a, b, length))
                                    + (noise * random.NextNormal())
                            )
                    ),
                ]
            );
        }
    }

    public static Arbitrary<Simulated> Profiles() =>
        (
            from surface in Gen.Choose(200, 1500)
            from d in Gen.Choose(500, 8000)
            from background in Gen.Choose(0, 40)
            from years in Gen.Choose(5, 60)
            from slices in Gen.Choose(5, 9)
            from seed in Gen.Choose(0, 1_000_000)
            // A penetration 2 sqrt(D t) of 20 to 100 mm, as decks have: s = D t from 100 to 2500 mm².
            select new Simulated(
                surface / 100.0,
                d / 100.0 * 25 / years,
                background / 100.0,
                years,
                slices,
                seed
            )
        ).ToArbitrary();

    private static readonly ProfileFitOptions Plain = new() { SkipSurface = 0, Influence = false };

    [Property(MaxTest = 60, Arbitrary = [typeof(ProfileLawsTests)])]
    public void Fit_NoiseFree_TruthRecovered(Simulated truth)
    {
        var fit = ProfileFitter.Fit(truth.Core(0), Plain);

        Assert.NotEqual(FitStatus.Refused, fit.Status);
        Close(truth.D, fit.DiffusionCoefficient!.Value, 1e-9);
        Close(truth.Surface, fit.SurfaceChloride!.Value, 1e-9);
        Assert.Equal(truth.Background, fit.Background!.Value, 1e-9);
    }

    [Property(MaxTest = 60, Arbitrary = [typeof(ProfileLawsTests)])]
    public void Fit_OtherUnitsOfContentLengthAndTime_SameAnswer(Simulated truth)
    {
        var core = truth.Core(0.1);
        // Contents in lb/yd³ taken as if kg/m³, lengths in units of 25.4 mm, ages in days: the fit must only scale.
        const double content = 1 / 0.593276421257783;
        const double length = 1 / 25.4;
        var other = core with
        {
            ExposureAge = Age.FromYears(core.ExposureAge.Years * 365.25),
            Slices =
            [
                .. core.Slices.Select(s =>
                    s with
                    {
                        Top = Depth.FromMillimetres(s.Top.Millimetres * length),
                        Bottom = Depth.FromMillimetres(s.Bottom.Millimetres * length),
                        Content = ChlorideContent.FromKilogramsPerCubicMetre(
                            s.Content.KilogramsPerCubicMetre * content
                        ),
                    }
                ),
            ],
        };

        var one = ProfileFitter.Fit(core, Plain);
        var two = ProfileFitter.Fit(other, Plain);

        Assert.Equal(one.Status, two.Status);
        if (one.Status == FitStatus.Refused)
        {
            return;
        }

        const double diffusion = length * length / 365.25;
        Close(one.DiffusionCoefficient!.Value * diffusion, two.DiffusionCoefficient!.Value, 1e-8);
        Close(one.SurfaceChloride!.Value * content, two.SurfaceChloride!.Value, 1e-8);
        Near(one.DiffusionCoefficient.Upper95 * diffusion, two.DiffusionCoefficient.Upper95, 1e-5);
        Near(one.DiffusionCoefficient.Lower95 * diffusion, two.DiffusionCoefficient.Lower95, 1e-5);
        Near(one.SurfaceChloride.Upper95 * content, two.SurfaceChloride.Upper95, 1e-5);
        Near(one.SurfaceChloride.Lower95 * content, two.SurfaceChloride.Lower95, 1e-5);
    }

    [Property(MaxTest = 40, Arbitrary = [typeof(ProfileLawsTests)])]
    public void Fit_AnyOrderOfSlices_SameNumbers(Simulated truth)
    {
        var core = truth.Core(0.15);
        var reversed = core with { Slices = [.. core.Slices.Reverse()] };
        var rotated = core with { Slices = [.. core.Slices.Skip(3), .. core.Slices.Take(3)] };

        var expected = ProfileFitter.Fit(core, Plain);
        foreach (var other in new[] { reversed, rotated })
        {
            var fit = ProfileFitter.Fit(other, Plain);
            Assert.Equal(expected.Status, fit.Status);
            Assert.Equal(expected.DiffusionCoefficient, fit.DiffusionCoefficient);
            Assert.Equal(expected.SurfaceChloride, fit.SurfaceChloride);
            Assert.Equal(expected.Background, fit.Background);
        }
    }

    // Each slice twice is each slice with half the variance: the same sum of squares but for a factor, so the same estimates;
    // standard errors differ by sqrt((2n - p) / (n - p) / 2 × 2) only through the degrees of freedom.
    [Property(MaxTest = 40, Arbitrary = [typeof(ProfileLawsTests)])]
    public void Fit_DuplicatedSlices_WeighLikeHalvedVariance(Simulated truth)
    {
        var core = truth.Core(0.1);
        var twice = core with { Slices = [.. core.Slices, .. core.Slices] };
        var means = core.With(s => s with { Replicates = 2 });

        var doubled = ProfileFitter.Fit(twice, Plain);
        var weighted = ProfileFitter.Fit(means, Plain);

        Assert.Equal(doubled.Status == FitStatus.Refused, weighted.Status == FitStatus.Refused);
        if (doubled.Status == FitStatus.Refused || doubled.Correlation is null)
        {
            return;
        }

        Close(weighted.DiffusionCoefficient!.Value, doubled.DiffusionCoefficient!.Value, 1e-8);
        Close(weighted.SurfaceChloride!.Value, doubled.SurfaceChloride!.Value, 1e-8);
        var n = core.Slices.Length;
        // s² = RSS/(n - p) in both; RSS of the pairs is that of the weighted means with 2n - p degrees of freedom.
        var factor = Math.Sqrt((n - 3.0) / ((2 * n) - 3.0));
        Close(
            weighted.DiffusionCoefficient.StandardError!.Value * factor,
            doubled.DiffusionCoefficient.StandardError!.Value,
            1e-6
        );
    }

    [Property(MaxTest = 40, Arbitrary = [typeof(ProfileLawsTests)])]
    public void Fit_SliceSubdividedAndAveraged_SameFit(Simulated truth)
    {
        // A slice mean is the mean of its halves' means: fitting the average of two exact halves is fitting the slice.
        var length = 2 * Math.Sqrt(truth.D * truth.Years);
        var core = truth
            .Core(0)
            .With(s =>
            {
                var middle = s.CentreMm;
                var mean =
                    0.5
                    * (
                        SliceMean.Value(s.Top.Millimetres, middle, length)
                        + SliceMean.Value(middle, s.Bottom.Millimetres, length)
                    );
                return s with
                {
                    Content = ChlorideContent.FromKilogramsPerCubicMetre(
                        truth.Background + ((truth.Surface - truth.Background) * mean)
                    ),
                };
            });

        var fit = ProfileFitter.Fit(core, Plain);

        Close(truth.D, fit.DiffusionCoefficient!.Value, 1e-9);
    }

    [Property(MaxTest = 40, Arbitrary = [typeof(ProfileLawsTests)])]
    public void Fit_AnyNoise_NoNumberThatIsNotFiniteAndLimitsAroundTheEstimate(Simulated truth)
    {
        foreach (
            var options in new[]
            {
                Plain,
                Plain with
                {
                    Weights = SliceWeights.Relative,
                },
                Plain with
                {
                    Law = ErrorLaw.Student,
                },
            }
        )
        {
            var fit = ProfileFitter.Fit(truth.Core(1.0), options);
            foreach (
                var estimate in new[]
                {
                    fit.SurfaceChloride,
                    fit.DiffusionCoefficient,
                    fit.Background,
                }.OfType<Estimate>()
            )
            {
                double?[] numbers =
                [
                    estimate.Value,
                    estimate.StandardError,
                    estimate.Lower95,
                    estimate.Upper95,
                ];
                Assert.All(numbers.OfType<double>(), x => Assert.True(double.IsFinite(x)));
                Assert.False(estimate.Lower95 > estimate.Value * (1 + 1e-9));
                Assert.False(estimate.Upper95 < estimate.Value * (1 - 1e-9));
            }

            Assert.Equal(fit.Status == FitStatus.Refused, fit.DiffusionCoefficient is null);
        }
    }

    // Limits by the definition: the profile at the limit has risen by the F(1, n - p) cut, found here by refitting Cs and C0 on a grid.
    [Fact]
    public void Limits_OfD_RiseOfTheSumOfSquaresIsTheCut()
    {
        var core = new Simulated(6, 20, 0.2, 25, 7, 3).Core(0.15);
        var fit = ProfileFitter.Fit(core, Plain with { LimitsOverErrorKinds = false });

        var least = SumOfSquares(core, fit.DiffusionCoefficient!.Value);
        // t quantile 0.975 at 4 degrees of freedom: 2.776445105 (standard tables).
        var cut = least * (1 + (2.776445105 * 2.776445105 / 4));

        Close(cut, SumOfSquares(core, fit.DiffusionCoefficient.Lower95!.Value), 1e-6);
        Close(cut, SumOfSquares(core, fit.DiffusionCoefficient.Upper95!.Value), 1e-6);
    }

    // Without a slip Student's t and the normal law agree closely; with one, the robust D moves less.
    [Fact]
    public void Fit_OneSlip_StudentMovesLessAndSaysWhichSlice()
    {
        var truth = new Simulated(6, 20, 0.2, 25, 9, 11);
        var clean = truth.Core(0.03);
        var slipped = clean.With(s => s.Row == 5 ? s with { Content = Times(s, 1.6) } : s);
        var robust = Plain with { Law = ErrorLaw.Student };

        var normal = ProfileFitter.Fit(slipped, Plain).DiffusionCoefficient!.Value;
        var student = ProfileFitter.Fit(slipped, robust);

        Assert.True(
            Math.Abs(Math.Log(student.DiffusionCoefficient!.Value / 20))
                < 0.3 * Math.Abs(Math.Log(normal / 20))
        );
        Assert.Contains(student.Flags, f => f.Code == "DL2018" && f.Row == 5);
        Assert.True(student.Slices.Single(s => s.Row == 5).Weight < 0.1);
    }

    // Censoring at a limit far above the contents says nothing, at one just above the truth hardly more: between the two fits of zero and limit.
    [Fact]
    public void Fit_NonDetects_BetweenZeroAndTheLimit()
    {
        var core = new Simulated(6, 12, 0, 20, 8, 5).Core(0.02);
        CoreProfile At(double share, bool censored) =>
            core.With(s =>
                s.Content.KilogramsPerCubicMetre < 0.25
                    ? s with
                    {
                        Content = ChlorideContent.FromKilogramsPerCubicMetre(0.25 * share),
                        IsNonDetect = censored,
                    }
                    : s
            );

        var censored = ProfileFitter.Fit(At(1, true), Plain).DiffusionCoefficient!.Value;

        Close(12, censored, 0.05);
        Assert.True(
            Math.Abs(censored - 12)
                <= Math.Abs(ProfileFitter.Fit(At(1, false), Plain).DiffusionCoefficient!.Value - 12)
        );
    }

    [Fact]
    public void Fit_RelativeWeights_NoiseFreeTruthRecoveredAndFloorSaid()
    {
        var truth = new Simulated(6, 20, 0.2, 25, 7, 3);
        var fit = ProfileFitter.Fit(truth.Core(0), Plain with { Weights = SliceWeights.Relative });

        Close(20, fit.DiffusionCoefficient!.Value, 1e-9);
        Assert.Contains("DL2017", fit.Codes());
    }

    [Fact]
    public void Fit_GivenDeviations_LimitsFromThemOrTheReasonWhyNot()
    {
        var core = new Simulated(6, 20, 0.2, 25, 7, 3).Core(0.15);
        var options = Plain with { Weights = SliceWeights.Given };

        var missing = ProfileFitter.Fit(core, options);
        var given = ProfileFitter.Fit(core.With(s => s with { StandardDeviation = 0.15 }), options);
        var tooSmall = ProfileFitter.Fit(
            core.With(s => s with { StandardDeviation = 0.015 }),
            options
        );

        Assert.Equal("DL2056", missing.Flags[^1].Code);
        Assert.Contains(
            "chi-square",
            given.DiffusionCoefficient!.LimitMethod,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("DL2015", given.Codes());
        Assert.Contains("DL2015", tooSmall.Codes());
    }

    [Fact]
    public void Fit_ReplicatesThatAgreeButNotWithTheCurve_LackOfFitFlagged()
    {
        var core = new Simulated(6, 20, 0.2, 25, 7, 3).Core(0.25);
        var replicated = core with
        {
            Slices =
            [
                .. core.Slices.SelectMany(s =>
                    new[]
                    {
                        s with
                        {
                            Content = Times(s, 1.002),
                        },
                        s with
                        {
                            Content = Times(s, 0.998),
                        },
                    }
                ),
            ],
        };

        Assert.Contains("DL2019", ProfileFitter.Fit(replicated, Plain).Codes());
    }

    [Theory]
    [InlineData(20)]
    [InlineData(60)]
    public void Fit_SliceMeansTakenAsPoints_SpreadIsLargerByTheVarianceOfTheSlice(double d)
    {
        // A box of width w has the variance w²/12, and ∫D dt is half a variance: D t comes out larger by w²/24, to first order.
        const double Years = 25;
        var contents = Enumerable
            .Range(0, 8)
            .Select(i =>
                0.2
                + (
                    6
                    * SliceMean.Value(12.7 * (i + 0.5), 12.7 * (i + 1.5), 2 * Math.Sqrt(d * Years))
                )
            );

        var fit = ProfileFitter.Fit(
            Cores.HalfInch(Years, [.. contents]),
            Plain with
            {
                AsPoints = true,
            }
        );

        var excess = (fit.DiffusionCoefficient!.Value - d) * Years;
        Assert.Equal(1, excess / (12.7 * 12.7 / 24), 0.05);
    }

    // SciPy 1.10.1, Nelder-Mead on the full likelihood: reference-checks/peers/fitting/censored_profile.py.
    [Fact]
    public void Fit_TwoNonDetects_LikelihoodMaximumOfAnIndependentProgram()
    {
        var core = Cores.HalfInch(
            25,
            [8.7, 6.0, 3.9, 2.4, 1.5, 1.2, 0.95, 0.9],
            [false, false, false, false, false, true, false, true]
        );

        var fit = ProfileFitter.Fit(core, Plain);

        // Nelder-Mead stops where the likelihood is flat to 1e-14: 7 digits of the parameters.
        Close(7.020273796, fit.SurfaceChloride!.Value, 1e-7);
        Close(0.456778991, fit.Background!.Value, 1e-6);
        Close(24.55086411, fit.DiffusionCoefficient!.Value, 1e-6);
    }

    [Fact]
    public void Fit_StudentErrors_LikelihoodMaximumOfAnIndependentProgram()
    {
        var core = Cores.HalfInch(25, [9.4, 7.6, 5.1, 4.9, 2.6, 1.62, 1.1, 0.78, 0.66]);

        var fit = ProfileFitter.Fit(core, Plain with { Law = ErrorLaw.Student });

        Close(7.006148088, fit.SurfaceChloride!.Value, 1e-6);
        Close(49.75078923, fit.DiffusionCoefficient!.Value, 1e-6);
    }

    private static ChlorideContent Times(ChlorideSlice slice, double factor) =>
        ChlorideContent.FromKilogramsPerCubicMetre(slice.Content.KilogramsPerCubicMetre * factor);

    // Least squares in Cs and C0 for one D by the normal equations: independent of the fitter's own linear part.
    private static double SumOfSquares(CoreProfile core, double d)
    {
        var length = 2 * Math.Sqrt(d * core.ExposureAge.Years);
        double n = 0;
        double sp = 0;
        double spp = 0;
        double sy = 0;
        double spy = 0;
        double syy = 0;
        foreach (var slice in core.Slices)
        {
            var p = SliceMean.Value(slice.Top.Millimetres, slice.Bottom.Millimetres, length);
            var y = slice.Content.KilogramsPerCubicMetre;
            (n, sp, spp, sy, spy, syy) = (
                n + 1,
                sp + p,
                spp + (p * p),
                sy + y,
                spy + (p * y),
                syy + (y * y)
            );
        }

        var slope = ((n * spy) - (sp * sy)) / ((n * spp) - (sp * sp));
        var intercept = (sy - (slope * sp)) / n;
        return intercept >= 0 ? syy - (slope * spy) - (intercept * sy) : syy - (spy * spy / spp);
    }

    private static void Near(double? expected, double? found, double relative)
    {
        Assert.Equal(expected is null, found is null);
        if (expected is { } e)
        {
            Assert.True(Math.Abs(found!.Value - e) <= (relative * Math.Abs(e)) + 1e-9);
        }
    }

    private static void Close(double expected, double found, double relative) =>
        Assert.True(
            Math.Abs(found - expected) <= relative * Math.Abs(expected),
            FormattableString.Invariant($"expected {expected:R}, found {found:R}")
        );
}
