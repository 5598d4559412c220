using System.Globalization;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Which cores a deck fit can use, and with which slices.</summary>
internal static class DeckCoreSelection
{
    /// <summary>Smallest number of slices of a core: its own surface content and coefficient, and one more.</summary>
    public const int FewestSlices = 3;

    /// <summary>Why a core can't be used; null when it can.</summary>
    /// <param name="core">The core with the slices that would take part.</param>
    public static string? Problem(CoreProfile core)
    {
        var slices = core.Slices;
        if (!(core.ExposureAge.Years > 0))
        {
            return "its exposure age is 0";
        }

        if (slices.Length < FewestSlices)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"{slices.Length} slices; at least {FewestSlices} are needed"
            );
        }

        if (slices.All(s => s.IsNonDetect))
        {
            return "all slices are below detection";
        }

        if (slices.All(s => s.Content == slices[0].Content))
        {
            return "all its contents are equal";
        }

        // The shallowest slice is left out of the count where four or more remain to judge by.
        var data = ProfileDataBuilder.Build(core, slices, new ProfileFitOptions());
        var tau = FallRule.KendallTau(data, slices.Length > FewestSlices ? 1 : 0);
        return tau < 0
            ? null
            : string.Create(
                CultureInfo.InvariantCulture,
                $"its contents do not fall with depth (Kendall's tau {tau:F2}; allowed: below 0)"
            );
    }

    /// <summary>The core with its slices in order and without skin slices.</summary>
    /// <param name="core">The core.</param>
    /// <param name="skipped">Number of skin slices left out.</param>
    public static CoreProfile WithoutSkin(CoreProfile core, out int skipped)
    {
        var ordered = core.SlicesByDepth();
        skipped = SkinRule.Apply(ordered).Skip;
        return core with { Slices = ordered[skipped..] };
    }

    /// <summary>The profile of a core's fit with the slices that the fit used, in order.</summary>
    /// <param name="fit">The fit of the core.</param>
    public static CoreProfile Used(ProfileFit fit) =>
        // What a fit leaves out lies at the surface; rows do not tell it, since slices that came from no file have none.
        fit.Profile with
        {
            Slices = fit.Profile.SlicesByDepth()[fit.Excluded.Length..],
        };
}
