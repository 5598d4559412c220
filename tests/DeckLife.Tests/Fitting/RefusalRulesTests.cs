using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>When no estimate is given, and what the engineer is told: at both sides of every rule.</summary>
public class RefusalRulesTests
{
    private static readonly ProfileFitOptions Free = new() { SkipSurface = 0 };

    private static readonly ProfileFitOptions Held = Free with
    {
        Background = BackgroundTreatment.Fixed,
        FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.1),
    };

    [Fact]
    public void TooFew_BackgroundFree_HoldingItWouldDo() =>
        AssertRefused(
            ProfileFitter.Fit(Core([9, 5, 2]), Free),
            "DL2051",
            "3 slice(s) measured above detection can be used; 3 free parameters (Cs, D, C0) need at least 4. "
                + "Hold the background (--background) or take more slices."
        );

    [Fact]
    public void TooFew_TwoSlices_HoldingWouldNotDo() =>
        AssertRefused(
            ProfileFitter.Fit(Core([9, 5]), Free),
            "DL2051",
            "2 slice(s) measured above detection can be used; 3 free parameters (Cs, D, C0) need at least 4. Take more slices."
        );

    [Fact]
    public void TooFew_BackgroundHeld_ThreeNeeded()
    {
        AssertRefused(
            ProfileFitter.Fit(Core([9, 5]), Held),
            "DL2051",
            "2 slice(s) measured above detection can be used; 2 free parameters (Cs, D) need at least 3. Take more slices."
        );
        Assert.NotEqual(FitStatus.Refused, ProfileFitter.Fit(Core([9, 5, 2]), Held).Status);
    }

    // Non-detects are no measured slices; three measured ones beside them do, two do not.
    [Theory]
    [InlineData(3, false)]
    [InlineData(2, true)]
    public void TooFew_NonDetects_DoNotCount(int detected, bool refused)
    {
        var fit = ProfileFitter.Fit(
            Core([9, 4.2, 1.4, 0.5, 0.5], [.. Enumerable.Range(0, 5).Select(i => i >= detected)]),
            Free
        );

        Assert.Equal(refused, fit.Status == FitStatus.Refused);
        Assert.Equal(
            refused,
            fit.Reason!.StartsWith("2 slice(s) measured", StringComparison.Ordinal)
        );
        Assert.Equal(!refused, fit.Flags.Any(f => f.Code == "DL2007"));
    }

    [Fact]
    public void TooFew_ThreeMeasuredAndAStatedBackground_NotHeldByTheProgram()
    {
        var fit = ProfileFitter.Fit(Core([9, 4.2, 1.4, 0.5], [false, false, false, true]), Held);

        Assert.DoesNotContain(fit.Flags, f => f.Code == "DL2007");
        Assert.Equal(0.1, fit.Background!.Value);
        Assert.True(fit.Background.IsFixed);
        Assert.Equal("held, not estimated", fit.Background.MissingReason);
    }

    [Fact]
    public void TooFew_NoSliceAtAll_NotCalledBelowDetection() =>
        AssertRefused(
            ProfileFitter.Fit(Core([]), Free),
            "DL2051",
            "0 slice(s) measured above detection can be used; 3 free parameters (Cs, D, C0) need at least 4. Take more slices."
        );

    [Fact]
    public void AllBelowDetection_Counted() =>
        AssertRefused(
            ProfileFitter.Fit(Core([0.5, 0.5, 0.5, 0.5], [true, true, true, true]), Free),
            "DL2052",
            "All 4 slices are below their detection limit: nothing to fit."
        );

    [Fact]
    public void NoExposure_Said() =>
        AssertRefused(
            ProfileFitter.Fit(Core([9, 6, 4, 2, 1]) with { ExposureAge = Age.FromYears(0) }, Free),
            "DL2057",
            "The exposure age is 0 yr; it must be above 0."
        );

    [Fact]
    public void GivenDeviations_MissingOrZero_TheirRows()
    {
        var core = Core([9, 6, 4, 2, 1])
            .With(s =>
                s with
                {
                    StandardDeviation =
                        s.Row == 3 ? null
                        : s.Row == 5 ? 0
                        : 0.2,
                }
            );

        AssertRefused(
            ProfileFitter.Fit(core, Free with { Weights = SliceWeights.Given }),
            "DL2056",
            "Weights from given standard deviations were asked for, but row(s) 3, 5 have none (or 0)."
        );
        Assert.NotEqual(FitStatus.Refused, ProfileFitter.Fit(core, Free).Status);
    }

    [Fact]
    public void NoSpread_TheContent() =>
        AssertRefused(
            ProfileFitter.Fit(Core([2, 2, 2, 2, 2]), Free),
            "DL2054",
            "All contents are 2 kg/m3: there is no profile."
        );

    // The shallowest slice may be a skin: it does not count, unless slices were left out already.
    [Theory]
    [InlineData(new[] { 1.0, 4, 3, 2 }, 0, false)]
    // 1 against 4, 3, 2: three pairs rise, the other three fall.
    [InlineData(new[] { 0.5, 1.0, 4, 3, 2 }, 1, true)]
    public void NotFalling_ShallowestSlice_CountsOnlyAfterASkip(
        double[] content,
        int skip,
        bool refused
    )
    {
        var fit = ProfileFitter.Fit(Core(content), Free with { SkipSurface = skip });

        Assert.Equal(refused, fit.Flags.Any(f => f.Code == "DL2053"));
        if (refused)
        {
            Assert.Contains("is 0.00: contents do not fall", fit.Reason, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void SearchEnd_OnlyTheFirstSliceHoldsSalt_LowerEnd()
    {
        var fit = ProfileFitter.Fit(
            Core([9, 0.29, 0.28, 0.27, 0.26, 0.25]),
            Held with
            {
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.30),
            }
        );

        Assert.Equal("DL2055", fit.Flags[^1].Code);
        Assert.StartsWith("The best D lies at the lower end", fit.Reason, StringComparison.Ordinal);
        Assert.EndsWith(
            "only the shallowest slice stands out, so Cs and D can't be told apart.",
            fit.Reason,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void SearchEnd_NearlyFlat_UpperEnd()
    {
        var fit = ProfileFitter.Fit(Core([3.00, 2.99, 2.98, 2.97, 2.96, 2.95, 2.94]), Free);

        Assert.StartsWith("The best D lies at the upper end", fit.Reason, StringComparison.Ordinal);
        Assert.EndsWith(
            "the profile is a straight line or flatter, so Cs and D can't be told apart.",
            fit.Reason,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void HeldBackground_AboveAllContents_TheBackground() =>
        AssertRefused(
            ProfileFitter.Fit(
                Core([3, 2.2, 1.4, 0.9, 0.6]),
                Held with
                {
                    FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(5),
                }
            ),
            "DL2058",
            "The background was held at 5 kg/m3, and no slice lies enough above it for a profile (best Cs = C0)."
        );

    // A flat curve through these would lie below the held background; a steep one lies above it at the surface.
    [Fact]
    public void HeldBackground_AboveTheMeanOfTheContents_Fitted()
    {
        var fit = ProfileFitter.Fit(
            Core([2, 0.7, 0.35, 0.2, 0.1, 0.05]),
            Held with
            {
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.6),
            }
        );

        Assert.DoesNotContain(fit.Flags, f => f.Code == "DL2058");
    }

    private static void AssertRefused(ProfileFit fit, string code, string text)
    {
        Assert.Equal(FitStatus.Refused, fit.Status);
        Assert.Equal(code, fit.Flags[^1].Code);
        Assert.Equal(text, fit.Reason);
        Assert.Null(fit.DiffusionCoefficient);
        Assert.Null(fit.SurfaceChloride);
        Assert.Null(fit.OtherWeights);
    }

    private static CoreProfile Core(double[] content, bool[]? nonDetect = null) =>
        Cores.Slices(
            25,
            [.. content.Select((_, i) => 6.0 + (12.5 * i))],
            [.. content.Select((_, i) => 18.5 + (12.5 * i))],
            content,
            nonDetect
        );
}
