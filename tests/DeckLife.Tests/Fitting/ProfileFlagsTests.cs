using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Flags of a fit at both sides of what provokes them; the fit is changed in one number at a time.</summary>
public class ProfileFlagsTests
{
    private static readonly ProfileFitOptions Plain = new()
    {
        SkipSurface = 0,
        LimitsOverErrorKinds = false,
    };

    private static readonly CoreProfile Sound = Core([5.9, 4.1, 2.6, 1.65, 0.9, 0.62, 0.37, 0.31]);

    [Fact]
    public void Add_SoundProfile_NothingSaid()
    {
        var fit = ProfileFitter.Fit(Sound, Plain);

        Assert.Empty(fit.Flags);
        Assert.Equal(FitStatus.Fitted, fit.Status);
        Assert.Null(fit.Reason);
    }

    [Theory]
    [InlineData(true, "8 of 8 slices were fitted as points at their centres, as asked.")]
    [InlineData(
        false,
        "1 of 8 slices were fitted as points at their centres, since only their centres are given."
    )]
    public void AddData_Points_CountedWithTheCause(bool asked, string text)
    {
        var core = asked
            ? Sound
            : Sound.With(s =>
                s.Row == 4
                    ? s with
                    {
                        Top = Depth.FromMillimetres(s.CentreMm),
                        Bottom = Depth.FromMillimetres(s.CentreMm),
                    }
                    : s
            );

        Assert.Equal(
            text,
            Text(ProfileFitter.Fit(core, Plain with { AsPoints = asked }), "DL2011")
        );
    }

    [Theory]
    [InlineData(0.62, false)]
    [InlineData(0.37, false)]
    [InlineData(0.371, true)]
    public void AddData_DeepestAboveItsNeighbour_Said(double deepest, bool said)
    {
        var content = new[] { 5.9, 4.1, 2.6, 1.65, 0.9, 0.62, deepest };
        if (deepest == 0.62)
        {
            content[5] = 0.63;
        }
        else
        {
            content[5] = 0.37;
        }

        var flags = ProfileFitter.Fit(Core(content), Plain).Flags;

        Assert.Equal(said, flags.Any(f => f.Code == "DL2004"));
        if (said)
        {
            var flag = flags.Single(f => f.Code == "DL2004");
            Assert.Equal(8, flag.Row);
            Assert.StartsWith(
                "The deepest slice (row 8) holds 0.371 kg/m3, the one above it 0.37 kg/m3. It was kept",
                flag.Text,
                StringComparison.Ordinal
            );
        }
    }

    [Fact]
    public void AddData_DeepestBelowDetectionOrARepeat_NotCarriedDown()
    {
        var censored = Sound.With(s =>
            s.Row == 9 ? s with { IsNonDetect = true, Content = Kg(0.6) } : s
        );
        var repeat = Sound with
        {
            Slices = [.. Sound.Slices, Sound.Slices[^1] with { Content = Kg(0.4), Row = 10 }],
        };

        foreach (var core in new[] { censored, repeat })
        {
            Assert.DoesNotContain(ProfileFitter.Fit(core, Plain).Flags, f => f.Code == "DL2004");
        }
    }

    // 5 slices and 3 parameters leave 2 degrees of freedom, 6 leave 3.
    [Theory]
    [InlineData(5, "5 slices for 3 parameters leave 2 degree(s) of freedom")]
    [InlineData(6, null)]
    public void AddData_FewDegreesOfFreedom_Counted(int slices, string? text)
    {
        var core = Sound with { Slices = [.. Sound.Slices.Take(slices)] };

        AssertSaid(text, ProfileFitter.Fit(core, Plain), "DL2016");
    }

    [Fact]
    public void AddData_NonDetects_CountedAndNotAmongTheSlicesThatLeaveFreedom()
    {
        var core = Core(
            [5.9, 4.1, 2.6, 1.65, 0.9, 0.6, 0.6],
            [false, false, false, false, false, true, true]
        );
        var fit = ProfileFitter.Fit(core, Plain);

        AssertSaid("Below detection: 2 of 7 slices", fit, "DL2012");
        AssertSaid("5 slices for 3 parameters leave 2 degree(s) of freedom", fit, "DL2016");
    }

    // The background held by the program, at 0 and at the largest detection limit, against fits that hold it by hand.
    [Fact]
    public void AddBackground_HeldByTheProgram_BothEndsOfIt()
    {
        var core = Core([9, 4.2, 1.4, 0.5, 0.3], [false, false, false, true, true]);
        var fit = ProfileFitter.Fit(core, Plain);
        double At(double held) =>
            ProfileFitter
                .Fit(
                    core,
                    Plain with
                    {
                        Background = BackgroundTreatment.Fixed,
                        FixedBackground = Kg(held),
                    }
                )
                .DiffusionCoefficient!.Value;

        Assert.Equal(FitStatus.Limited, fit.Status);
        Assert.Equal(0, fit.Background!.Value);
        Assert.True(fit.Background.IsFixed);
        Assert.Equal(1, At(0) / fit.DiffusionCoefficient!.Value, 1e-9);
        Assert.StartsWith(
            FormattableString.Invariant(
                $"Only 3 slices were measured above detection, too few to estimate Cs, D and a background: the background was held at 0. Holding it at the largest detection limit, 0.5 kg/m3, would give D = {At(0.5):G4} mm2/yr."
            ),
            Text(fit, "DL2007"),
            StringComparison.Ordinal
        );
        Assert.Contains(Text(fit, "DL2007"), fit.Reason, StringComparison.Ordinal);
        Assert.DoesNotContain(fit.Flags, f => f.Code == "DL2005");
    }

    // Held at the detection limit, the slices below the first lie under the background: no D there.
    [Fact]
    public void AddBackground_HeldByTheProgramWithoutAFitAtTheLimit_Undetermined() =>
        Assert.Contains(
            "Holding it at the largest detection limit, 0.5 kg/m3, would give D = undetermined.",
            Text(
                ProfileFitter.Fit(
                    Core([9, 0.45, 0.3, 0.5, 0.5], [false, false, false, true, true]),
                    Plain
                ),
                "DL2007"
            ),
            StringComparison.Ordinal
        );

    [Fact]
    public void AddBackground_AtItsBound_ItsUpperLimitTold()
    {
        var fit = ProfileFitter.Fit(Core([9, 6, 3.2, 1.2, 0.25, 0.01]), Plain);

        Assert.StartsWith(
            FormattableString.Invariant(
                $"The fitted background is 0, the least there can be; it has an upper limit alone, at most {fit.Background!.Upper95:G4} kg/m3."
            ),
            Text(fit, "DL2006"),
            StringComparison.Ordinal
        );
        Assert.Contains(Text(fit, "DL2006"), fit.Reason, StringComparison.Ordinal);
        Assert.Equal(
            "at its bound 0: no standard error and no lower limit",
            fit.Background.MissingReason
        );
        Assert.EndsWith(", one-sided", fit.Background.LimitMethod, StringComparison.Ordinal);
    }

    // A first slice high above four that scatter: minima near D = 1.4 and 160 mm²/yr by a grid search in NumPy, sums of squares 19.53 and 12.38.
    [Fact]
    public void AddPlausibility_TwoMinima_TheOtherOneToldWithinTheCut()
    {
        var core = Scattered(10, 6.2, 9.1, 5.9, 6.6, 2.9);
        var fit = ProfileFitter.Fit(core, Plain);
        var search = ProfileSolver.Solve(ProfileDataBuilder.Build(core, core.Slices, Plain), Plain);
        var other = Assert.Single(search.OtherMinima);

        Assert.Equal(12.38, search.Best.Objective, 0.02);
        Assert.Equal(19.53, other.Objective, 0.02);
        Assert.InRange(Math.Exp(other.LnDiffusion), 1, 2);
        Assert.StartsWith(
            FormattableString.Invariant(
                $"D = {Math.Exp(other.LnDiffusion):G4} mm2/yr, a fit apart from the one reported, agrees with the slices within the 95 % cut as well"
            ),
            Text(fit, "DL2020"),
            StringComparison.Ordinal
        );
    }

    // Any small D fits the first slice alone and the others by their mean: a plateau at 6.3675 (by hand), on which rounding makes no minimum.
    [Fact]
    public void AddPlausibility_PlateauAtSmallD_NoFitApart()
    {
        var core = Scattered(2.5, 4.1, 2.6, 1.4, 0.8);
        var search = ProfileSolver.Solve(ProfileDataBuilder.Build(core, core.Slices, Plain), Plain);

        Assert.Equal(6.3675, search.Grid[0].Objective, 1e-9);
        Assert.Empty(search.OtherMinima);
        Assert.DoesNotContain(ProfileFitter.Fit(core, Plain).Flags, f => f.Code == "DL2020");
    }

    private static CoreProfile Scattered(params double[] content) =>
        Cores.Slices(
            25,
            [.. content.Select((_, i) => 6 + (12.5 * i))],
            [.. content.Select((_, i) => 18.5 + (12.5 * i))],
            content
        );

    // Errors that are estimated are never compared with 1 kg/m³.
    [Fact]
    public void AddErrors_LargeResidualsOfEstimatedErrors_NotCalledBeyondGivenOnes()
    {
        var large = Sound.With(s =>
            s with
            {
                Content = Kg(100 * s.Content.KilogramsPerCubicMetre),
            }
        );
        var fit = ProfileFitter.Fit(large, Plain);

        Assert.True(fit.ResidualStandardDeviation > 2);
        AssertSaid(null, fit, "DL2015");
    }

    // Share of (Cs - C0) in the deepest slice, written out from the fitted numbers.
    [Fact]
    public void AddBackground_DeepestSliceAboveATenth_ShareTold()
    {
        foreach (var slices in (int[])[4, 5, 6, 7, 8])
        {
            var fit = ProfileFitter.Fit(
                Sound with
                {
                    Slices = [.. Sound.Slices.Take(slices)],
                },
                Plain
            );
            var c0 = fit.Background!.Value;
            var share = (fit.Slices[^1].Fitted - c0) / (fit.SurfaceChloride!.Value - c0);
            var flag = fit.Flags.FirstOrDefault(f => f.Code == "DL2005");

            Assert.Equal(share > 0.1, flag is not null);
            if (flag is not null)
            {
                Assert.StartsWith(
                    FormattableString.Invariant(
                        $"At the deepest slice (centre {(12.5 * slices) - 6.25:F1} mm) the fitted content still lies {share:P0} of (Cs - C0) above the background"
                    ),
                    flag.Text,
                    StringComparison.Ordinal
                );
            }
        }
    }

    [Fact]
    public void AddBackground_Held_NeverCalledExtrapolated()
    {
        var fit = ProfileFitter.Fit(
            Sound with
            {
                Slices = [.. Sound.Slices.Take(4)],
            },
            Plain with
            {
                Background = BackgroundTreatment.Fixed,
                FixedBackground = Kg(0.3),
            }
        );

        Assert.DoesNotContain(fit.Flags, f => f.Code is "DL2005" or "DL2006");
    }

    [Fact]
    public void AddLimits_Absent_EachSideOfEachNumberAndTheReason()
    {
        var reasons = Change(
            f =>
                f with
                {
                    DiffusionCoefficient = f.DiffusionCoefficient! with { Lower95 = null },
                    SurfaceChloride = f.SurfaceChloride! with { Upper95 = null, Lower95 = null },
                    SearchLow = 0.25,
                    SearchHigh = 1234.5,
                },
            out var flags
        );

        string[] expected =
        [
            "The lower 95 % limit of D lies outside the search for D (0.25 to 1234.5 mm2/yr): the slices do not bound it.",
            "The lower 95 % limit of Cs lies outside the search for D (0.25 to 1234.5 mm2/yr): the slices do not bound it.",
            "The upper 95 % limit of Cs lies outside the search for D (0.25 to 1234.5 mm2/yr): the slices do not bound it.",
        ];
        Assert.Equal(expected, flags.Select(f => f.Text));
        Assert.Equal(expected, reasons);
    }

    [Theory]
    [InlineData(28.5, false)]
    [InlineData(28.6, true)]
    public void AddPlausibility_SurfaceContent_AboveWhatPoresHold(double surface, bool said)
    {
        var reasons = Change(
            f => f with { SurfaceChloride = f.SurfaceChloride! with { Value = surface } },
            out var flags
        );

        Assert.Equal(said, flags.Any(f => f.Code == "DL2009"));
        Assert.Empty(reasons);
        if (said)
        {
            Assert.StartsWith(
                "Cs = 28.6 kg/m3 is above 28.5 kg/m3",
                flags.Single().Text,
                StringComparison.Ordinal
            );
        }
    }

    // Variances 4, 9 and 16: covariances of 0.951 and 0.949 times the products of the standard deviations.
    [Theory]
    [InlineData(0.951, 0, 0, "Cs and ln D are correlated by 0.951")]
    [InlineData(-0.951, 0, 0, "Cs and ln D are correlated by -0.951")]
    [InlineData(0, 0.951, 0, "Cs and C0 are correlated by 0.951")]
    [InlineData(0, 0, -0.96, "ln D and C0 are correlated by -0.960")]
    [InlineData(0.949, -0.949, 0.949, null)]
    public void AddPlausibility_Correlations_BeyondNineteenTwentieths(
        double surfaceDiffusion,
        double surfaceBackground,
        double diffusionBackground,
        string? text
    )
    {
        var (a, b, c) = (6 * surfaceDiffusion, 8 * surfaceBackground, 12 * diffusionBackground);
        Change(f => f with { Covariance = [4, a, b, a, 9, c, b, c, 16] }, out var flags);

        if (text is null)
        {
            Assert.Empty(flags);
            return;
        }

        Assert.Equal("DL2008", Assert.Single(flags).Code);
        Assert.StartsWith("The estimates of " + text, flags[0].Text, StringComparison.Ordinal);
    }

    // Held background: its variance 0 gives no correlation at all.
    [Fact]
    public void AddPlausibility_NoVarianceOrNoCovariance_NoCorrelation()
    {
        Change(f => f with { Covariance = [4, 1, 0, 1, 9, 0, 0, 0, 0] }, out var flags);
        Assert.Empty(flags);
        Change(f => f with { Covariance = [] }, out flags);
        Assert.Empty(flags);
    }

    [Theory]
    [InlineData(0.29, true)]
    [InlineData(0.31, false)]
    public void AddErrors_WeightOfASlip_Told(double weight, bool said)
    {
        Change(
            f =>
                f with
                {
                    Slices =
                    [
                        .. f.Slices.Select(s =>
                            s.Row == 5
                                ? s with
                                {
                                    Weight = weight,
                                    Measured = 2,
                                    Fitted = 2.9,
                                    StandardDeviation = 0.2,
                                }
                                : s
                        ),
                    ],
                },
            out var flags
        );

        Assert.Equal(said, flags.Any(f => f.Code == "DL2018"));
        if (said)
        {
            Assert.Equal(5, flags.Single().Row);
            // 0.9 / 0.2 = 4.5.
            Assert.StartsWith(
                "The slice of row 5 lies 4.5 times the usual scatter from the curve and counts for 29",
                flags.Single().Text,
                StringComparison.Ordinal
            );
        }
    }

    // Three pairs, each ± 0.1 about its mean: pure error 3 × 2 × 0.01 / 0.04 = 1.5 on 3 degrees; the curve misses the means by 0.5:
    // 3 × 2 × 0.25 / 0.04 = 37.5 on the other 2 of 5 degrees; F = 18.75 / 0.5 = 37.5. F(2, 3) at 95 %: 9.55 (printed tables).
    [Theory]
    [InlineData(0.5, "Lack of fit: F = 37.5 on 2 and 3 degrees of freedom (95 % point 9.6)")]
    // 9.55 × 0.5 × 2 = 9.55 = 6 d² / 0.04: d = 0.2523.
    [InlineData(0.26, "Lack of fit: F = 10.1 on 2 and 3")]
    [InlineData(0.25, null)]
    public void AddErrors_RepeatsAgainstTheCurve_LackOfFit(double miss, string? text)
    {
        Change(f => f with { Slices = Pairs(miss, 0.1), DegreesOfFreedom = 5 }, out var flags);

        AssertSaid(text, flags, "DL2019");
    }

    // The third pair twice as uncertain and on the curve: pure error (0.5 + 0.5 + 0.125) / 3 = 0.375, misfit (12.5 + 12.5) / 2: F = 33.3.
    [Fact]
    public void AddErrors_LackOfFit_EachPairByItsOwnDeviation()
    {
        Change(
            f =>
                f with
                {
                    Slices =
                    [
                        .. Pairs(0.5, 0.1)
                            .Select(s =>
                                s.Row < 6 ? s : s with { StandardDeviation = 0.4, Fitted = 2 }
                            ),
                    ],
                    DegreesOfFreedom = 5,
                },
            out var flags
        );

        AssertSaid("Lack of fit: F = 33.3 on 2 and 3", flags, "DL2019");
    }

    // One repeated slice and one degree for the misfit: F(1, 1) is 161.4 (printed tables).
    [Fact]
    public void AddErrors_LackOfFit_OneDegreeEach()
    {
        Change(
            f =>
                f with
                {
                    Slices =
                    [
                        .. Pairs(20, 0.1)
                            .Select(s => s.Row < 4 ? s : s with { BottomMm = 50 + s.Row }),
                    ],
                    DegreesOfFreedom = 2,
                },
            out var flags
        );

        Assert.Contains(
            "on 1 and 1 degrees of freedom (95 % point 161.4): repeated determinations agree with each other better than with the curve.",
            flags.Single(f => f.Code == "DL2019").Text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void AddErrors_LackOfFit_NeedsScatterFreedomAndMeasuredContents()
    {
        // No scatter of the repeats; no freedom left for the misfit; no repeats; a non-detect among them.
        Change(f => f with { Slices = Pairs(0.5, 0), DegreesOfFreedom = 5 }, out var flags);
        AssertSaid(null, flags, "DL2019");
        Change(f => f with { Slices = Pairs(0.5, 0.1), DegreesOfFreedom = 3 }, out flags);
        AssertSaid(null, flags, "DL2019");
        Change(
            f =>
                f with
                {
                    Slices = [.. Pairs(0.5, 0.1).Select((s, i) => s with { BottomMm = 50 + i })],
                    DegreesOfFreedom = 5,
                },
            out flags
        );
        AssertSaid(null, flags, "DL2019");
        Change(
            f =>
                f with
                {
                    Slices = [.. Pairs(0.5, 0.1).Select(s => s with { IsNonDetect = s.Row == 2 })],
                    DegreesOfFreedom = 5,
                },
            out flags
        );
        AssertSaid(null, flags, "DL2019");
    }

    [Theory]
    [InlineData(2.01, true)]
    [InlineData(1.99, false)]
    [InlineData(0.501, false)]
    [InlineData(0.499, true)]
    public void AddInfluence_TwiceOrHalf_Told(double factor, bool said)
    {
        double d = 0;
        Change(
            f =>
            {
                d = f.DiffusionCoefficient!.Value;
                return f with { Influence = [new(2, 6, d), new(4, 6, factor * d)] };
            },
            out var flags
        );

        if (!said)
        {
            Assert.Empty(flags);
            return;
        }

        Assert.Equal(4, flags.Single().Row);
        Assert.StartsWith(
            FormattableString.Invariant(
                $"One laboratory result changes D more than twofold: without row 4 it would be {factor * d:G4} mm2/yr, {factor:G3} times as much."
            ),
            flags.Single().Text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void AddInfluence_SeveralSlices_AllToldAtNoRow()
    {
        Change(
            f =>
                f with
                {
                    Influence =
                    [
                        new(2, 6, 4 * f.DiffusionCoefficient!.Value),
                        new(3, null, null),
                        new(4, 6, 3 * f.DiffusionCoefficient.Value),
                        new(5, null, null),
                    ],
                },
            out var flags
        );

        Assert.Equal(["DL2010", "DL2021"], flags.Select(f => f.Code));
        Assert.All(flags, f => Assert.Null(f.Row));
        Assert.Contains("4 times as much; without row 4", flags[0].Text, StringComparison.Ordinal);
        Assert.DoesNotContain("row 3", flags[0].Text, StringComparison.Ordinal);
        Assert.StartsWith(
            "Without any one of the slices of rows 3 and 5, no D exists within the search interval",
            flags[1].Text,
            StringComparison.Ordinal
        );
    }

    // Given errors of a third of the scatter; the 97.5 % point of chi-square on 5 degrees of freedom is 12.83 (printed tables).
    [Fact]
    public void AddErrors_ResidualsBeyondGivenErrors_FactorAndPointOfChiSquare()
    {
        var scatter = ProfileFitter.Fit(Sound, Plain).ResidualStandardDeviation!.Value;
        ProfileFit At(double sd) =>
            ProfileFitter.Fit(
                Sound.With(s => s with { StandardDeviation = sd }),
                Plain with
                {
                    Weights = SliceWeights.Given,
                }
            );

        AssertSaid(
            "The residuals are 3.0 times the given standard deviations (chi-square 45.00 on 5 degrees of freedom, 97.5 % point 12.83)",
            At(scatter / 3),
            "DL2015"
        );
        // sqrt(12.8325 / 5) = 1.6020.
        AssertSaid("The residuals are 1.6 times", At(scatter / 1.61), "DL2015");
        AssertSaid(null, At(scatter / 1.59), "DL2015");
    }

    [Fact]
    public void AddErrors_RelativeWeights_FloorOfTwoPerCentOrTheDetectionLimit()
    {
        var options = Plain with { Weights = SliceWeights.Relative };
        var censored = Sound.With(s =>
            s.Row >= 8 ? s with { IsNonDetect = true, Content = Kg(0.1 * s.Row) } : s
        );

        AssertSaid(
            "Errors in proportion to the fitted content, not below that of 0.118 kg/m3.",
            ProfileFitter.Fit(Sound, options),
            "DL2017"
        );
        AssertSaid(
            "Errors in proportion to the fitted content, not below that of 0.9 kg/m3.",
            ProfileFitter.Fit(censored, options),
            "DL2017"
        );
    }

    private static System.Collections.Immutable.ImmutableArray<FittedSlice> Pairs(
        double miss,
        double scatter
    ) =>
        [
            .. Enumerable
                .Range(0, 6)
                .Select(i =>
                {
                    var mean = 6.0 - (2 * (i / 2));
                    return new FittedSlice(
                        i + 2,
                        20 * (i / 2),
                        20 * ((i / 2) + 1),
                        mean + (i % 2 == 0 ? scatter : -scatter),
                        false,
                        mean + (i / 2 == 1 ? -miss : miss),
                        0.2,
                        1
                    );
                }),
        ];

    // The flags of a sound fit after one change of it.
    private static List<string> Change(
        Func<ProfileFit, ProfileFit> change,
        out List<Diagnostic> flags
    )
    {
        var fit = ProfileFitter.Fit(Sound, Plain with { Influence = false });
        var data = ProfileDataBuilder.Build(Sound, Sound.Slices, Plain);
        flags = [];
        return ProfileFlags.Add(
            change(fit),
            Sound.Slices,
            ProfileSolver.Solve(data, Plain),
            false,
            flags
        );
    }

    private static string Text(ProfileFit fit, string code) =>
        fit.Flags.Single(f => f.Code == code).Text;

    private static void AssertSaid(string? text, ProfileFit fit, string code) =>
        AssertSaid(text, fit.Flags, code);

    private static void AssertSaid(string? text, IEnumerable<Diagnostic> flags, string code)
    {
        var flag = flags.SingleOrDefault(f => f.Code == code);
        Assert.Equal(text is null, flag is null);
        if (text is not null)
        {
            Assert.StartsWith(text, flag!.Text, StringComparison.Ordinal);
        }
    }

    private static ChlorideContent Kg(double value) =>
        ChlorideContent.FromKilogramsPerCubicMetre(value);

    private static CoreProfile Core(double[] content, bool[]? nonDetect = null) =>
        Cores.Slices(
            25,
            [.. content.Select((_, i) => 12.5 * i)],
            [.. content.Select((_, i) => 12.5 * (i + 1))],
            content,
            nonDetect
        );
}
