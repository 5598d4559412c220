using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Each profile provokes one message of the fits that no other test asks for.</summary>
public class ProvokedFitMessageTests
{
    private static readonly ProfileFitOptions Free = new() { SkipSurface = 0 };

    [Theory]
    // A profile still high at its foot: the deepest slice stands well above the background.
    [InlineData("DL2005", new[] { 9.0, 7.1, 5.6, 4.35, 3.3, 2.55 })]
    // Contents that bend to 0 faster than an error function: the background goes to its bound.
    [InlineData("DL2006", new[] { 9.0, 6.0, 3.2, 1.2, 0.25, 0.01 })]
    [InlineData("DL2008", new[] { 9.0, 7.6, 6.35, 5.25, 4.3, 3.5 })]
    [InlineData("DL2009", new[] { 70.0, 31.0, 12.0, 4.0, 1.2, 0.4 })]
    [InlineData("DL2016", new[] { 9.0, 5.1, 2.4, 1.05, 0.5 })]
    // A first slice high above four that scatter: a steep profile through it is nearly as good as a flat one through all.
    [InlineData("DL2020", new[] { 10.0, 6.2, 9.1, 5.9, 6.6, 2.9 })]
    // Scatter grows with the content: the limits hold for either kind of error and are wider for it.
    [InlineData("DL2022", new[] { 6.5, 11.7, 3.5, 2.3, 1.1, 1.3, 0.5, 0.3 })]
    // Two slices hold all of the fall: without either there is no D.
    [InlineData("DL2021", new[] { 9.0, 2.0, 0.3, 0.31, 0.29, 0.3, 0.3 })]
    public void Fit_Profile_Provokes(string code, double[] content) =>
        AssertProvoked(code, ProfileFitter.Fit(Core(content), Free));

    [Fact]
    public void Fit_SurfaceSkippedByHand_Said() =>
        AssertProvoked(
            "DL2003",
            ProfileFitter.Fit(Core([6, 9, 5.1, 2.4, 1.05, 0.5, 0.4]), Free with { SkipSurface = 1 })
        );

    [Fact]
    public void Fit_CoreOnCrack_Said() =>
        AssertProvoked(
            "DL2014",
            ProfileFitter.Fit(Core([9, 5.1, 2.4, 1.05, 0.5, 0.4]) with { OnCrack = true }, Free)
        );

    [Fact]
    public void Fit_FewDetects_BackgroundHeldAndSaid() =>
        AssertProvoked(
            "DL2007",
            ProfileFitter.Fit(
                Core([9, 4.2, 1.4, 0.3, 0.3, 0.3], [false, false, false, true, true, true]),
                Free
            )
        );

    [Fact]
    public void Fit_HeldBackgroundAboveAllContents_Refused()
    {
        var fit = ProfileFitter.Fit(
            Core([3, 2.2, 1.4, 0.9, 0.6, 0.4]),
            Free with
            {
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(5),
            }
        );

        Assert.Equal(FitStatus.Refused, fit.Status);
        AssertProvoked("DL2058", fit);
    }

    [Fact]
    public void Fit_OverlayEvenlySaltedAndDeckWithoutSalt_Undetermined()
    {
        var fit = OverlaidProfileFitter.Fit(
            Core([9, 8.9, 9.1, 9, 0.30, 0.31, 0.30, 0.29]),
            Depth.FromMillimetres(56)
        );

        Assert.Equal(FitStatus.Refused, fit.Status);
        Assert.Contains(fit.Flags, f => f.Code == "DL2062");
    }

    // The search runs to where the ratio of the coefficients is no number any more; it steps back instead of failing.
    [Fact]
    public void Fit_OverlaidCoreWithoutSaltInTheDeck_EndsWithoutLimitsOfTheDeck()
    {
        var fit = OverlaidProfileFitter.Fit(
            Core([9, 4.2, 1.4, 0.30, 0.30, 0.30, 0.30, 0.30]),
            Depth.FromMillimetres(60)
        );

        Assert.NotEqual(FitStatus.Fitted, fit.Status);
    }

    [Fact]
    public void Fit_DeckWithSkinSlices_SaysWhichWereLeftOut()
    {
        double[][] contents =
        [
            [4.0, 8.0, 5.2, 3.0, 1.6, 0.8],
            [7.9, 5.4, 3.3, 1.8, 0.9, 0.5],
            [8.8, 6.1, 3.9, 2.3, 1.2, 0.7],
            [7.1, 4.6, 2.7, 1.5, 0.8, 0.5],
        ];
        var fit = DeckFitter.Fit([.. contents.Select((c, i) => Core(c) with { Core = $"C{i}" })]);

        Assert.Contains(fit.Flags, f => f.Code == "DL2212");
    }

    private static CoreProfile Core(double[] content, bool[]? nonDetect = null) =>
        Cores.Slices(
            25,
            [.. content.Select((_, i) => 6.0 + (12.5 * i))],
            [.. content.Select((_, i) => 18.5 + (12.5 * i))],
            content,
            nonDetect
        );

    private static void AssertProvoked(string code, ProfileFit fit)
    {
        var found = fit.Flags.FirstOrDefault(f => f.Code == code);
        Assert.True(
            found is not null,
            $"{fit.Status} {fit.DiffusionCoefficient} {string.Join('\n', fit.Flags)}"
        );
        Assert.DoesNotContain("{", found.Text, StringComparison.Ordinal);
    }
}
