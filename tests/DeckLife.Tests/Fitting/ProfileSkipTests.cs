using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>What a fit leaves out at the surface, what it says of it, and what stands beside.</summary>
public class ProfileSkipTests
{
    private static readonly ProfileFitOptions Plain = new() { Influence = false };

    // Peak 8.0 in the second slice: (8 - 4) / (0.08 sqrt(8² + 4²)) = 5.59.
    [Fact]
    public void Fit_Skin_SaidWithBothSlicesAndListed()
    {
        var core = Core([4, 8, 5.2, 3, 1.6, 0.8, 0.5]);
        var fit = ProfileFitter.Fit(core, Plain);

        Assert.Equal(
            new ExcludedSlice(
                2,
                "skin: above a peak that exceeds it by more than 2 combined standard deviations"
            ),
            Assert.Single(fit.Excluded)
        );
        var flag = fit.Flags.Single(f => f.Code == "DL2001");
        Assert.Equal(2, flag.Row);
        Assert.Equal(
            "Slice 0-8 mm (row 2) holds 4 kg/m3, the peak below it (8-16 mm (row 3)) 8 kg/m3: higher by 5.6 combined standard deviations, so the slice is left out; the fit with it stands beside.",
            flag.Text
        );
        Assert.Equal(6, fit.Points);
        Assert.Equal([3, 4, 5, 6, 7, 8], fit.Slices.Select(s => s.Row));
        // The same as that of the core without the slice; beside it that of all.
        Assert.Equal(
            ProfileFitter
                .Fit(core with { Slices = [.. core.Slices.Skip(1)] }, Plain)
                .DiffusionCoefficient,
            fit.DiffusionCoefficient
        );
        Assert.Equal(
            ProfileFitter
                .Fit(core, Plain with { SkipSurface = 0, LimitsOverErrorKinds = false })
                .DiffusionCoefficient!.Value,
            fit.Alternative!.DiffusionCoefficient!.Value
        );
        Assert.Equal(7, fit.Alternative.Points);
        Assert.Empty(fit.Alternative.Excluded);
        Assert.Equal(6, fit.OtherWeights!.Points);
    }

    [Fact]
    public void Fit_PeakWithinNoise_SaidWithItsDepthAndNothingLeftOut()
    {
        // (8.8 - 8.0) / (0.08 sqrt(8.8² + 8.0²)) = 0.84.
        var fit = ProfileFitter.Fit(Core([8, 8.8, 5.9, 3.7, 2.1, 1.1, 0.7]), Plain);
        var flag = fit.Flags.Single(f => f.Code == "DL2002");

        Assert.Equal(3, flag.Row);
        Assert.StartsWith(
            "The largest content, 8.8 kg/m3, is in slice 8-16 mm (row 3), centre 12.0 mm; it exceeds the slices above by 0.8 combined standard deviations at least. No slice was left out",
            flag.Text,
            StringComparison.Ordinal
        );
        Assert.Empty(fit.Excluded);
        Assert.Null(fit.Alternative);
        Assert.Equal(7, fit.Points);
    }

    [Fact]
    public void Fit_NoPeakBelow_NothingSaid() =>
        Assert.DoesNotContain(
            ProfileFitter.Fit(Core([8, 5.9, 3.7, 2.1, 1.1, 0.7]), Plain).Flags,
            f => f.Code is "DL2001" or "DL2002" or "DL2003"
        );

    [Fact]
    public void Fit_SkipByHand_ListedAndTheRuleSwitchedOff()
    {
        var core = Core([4, 8, 5.2, 3, 1.6, 0.8, 0.5]);
        var two = ProfileFitter.Fit(core, Plain with { SkipSurface = 2 });
        var none = ProfileFitter.Fit(core, Plain with { SkipSurface = 0 });

        Assert.Equal([2, 3], two.Excluded.Select(e => e.Row));
        Assert.All(two.Excluded, e => Assert.Equal("left out by hand at the surface", e.Reason));
        Assert.Equal(
            "2 slice(s) at the surface were left out as asked.",
            two.Flags.Single(f => f.Code == "DL2003").Text
        );
        Assert.Equal(5, two.Points);
        Assert.Equal(7, two.Alternative!.Points);
        Assert.Empty(none.Excluded);
        Assert.Equal(7, none.Points);
        Assert.Null(none.Alternative);
        Assert.DoesNotContain(none.Flags.Concat(two.Flags), f => f.Code is "DL2001" or "DL2002");
        Assert.DoesNotContain(none.Flags, f => f.Code == "DL2003");
    }

    [Theory]
    [InlineData(-1, 7)]
    [InlineData(99, 0)]
    public void Fit_SkipBeyondTheSlices_ClampedNotThrown(int skip, int points) =>
        Assert.Equal(
            points,
            ProfileFitter
                .Fit(Core([6, 5.5, 5.2, 3, 1.6, 0.8, 0.5]), Plain with { SkipSurface = skip })
                .Points
        );

    // The content of the shallowest slice determined twice, 30 % apart: no skin.
    [Fact]
    public void Fit_ShallowestSliceDeterminedTwice_BothUsed()
    {
        var core = Core([8, 5.9, 3.7, 2.1, 1.1, 0.7]);
        var twice = core with
        {
            Slices =
            [
                core.Slices[0] with
                {
                    Row = 9,
                    Content = ChlorideContent.FromKilogramsPerCubicMetre(6),
                },
                .. core.Slices,
            ],
        };

        var fit = ProfileFitter.Fit(twice, Plain);

        Assert.Equal(7, fit.Points);
        Assert.DoesNotContain(fit.Flags, f => f.Code is "DL2001" or "DL2002");
    }

    // The deck fit takes the slices that the core's fit used: in whatever order they are held, with rows or without.
    [Theory]
    [InlineData(false, false)]
    [InlineData(true, false)]
    [InlineData(false, true)]
    [InlineData(true, true)]
    public void Used_SkinLeftOut_TheSkinAndNoOther(bool deepestFirst, bool withoutRows)
    {
        var core = Core([4, 8, 5.2, 3, 1.6, 0.8, 0.5])
            .With(s => withoutRows ? s with { Row = 0 } : s);
        if (deepestFirst)
        {
            core = core with { Slices = [.. core.Slices.Reverse()] };
        }

        var used = DeckCoreSelection.Used(ProfileFitter.Fit(core, Plain));

        Assert.Equal(
            [8.0, 5.2, 3, 1.6, 0.8, 0.5],
            used.Slices.Select(s => s.Content.KilogramsPerCubicMetre)
        );
    }

    [Fact]
    public void WithoutSkin_DeepestFirst_OrderedAndWithoutTheSkin()
    {
        var core = Core([4, 8, 5.2, 3, 1.6]);
        var without = DeckCoreSelection.WithoutSkin(
            core with
            {
                Slices = [.. core.Slices.Reverse()],
            },
            out var skipped
        );

        Assert.Equal(1, skipped);
        Assert.Equal([3, 4, 5, 6], without.Slices.Select(s => s.Row));
    }

    [Fact]
    public void Fit_NoProfile_Thrown() =>
        Assert.Throws<ArgumentNullException>(() => ProfileFitter.Fit(null!));

    private static CoreProfile Core(double[] content) =>
        Cores.Slices(
            25,
            [.. content.Select((_, i) => 8.0 * i)],
            [.. content.Select((_, i) => 8.0 * (i + 1))],
            content
        );
}
