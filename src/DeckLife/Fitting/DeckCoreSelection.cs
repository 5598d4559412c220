using System.Collections.Immutable;
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

        // Kendall's tau of content against depth, the shallowest slice left out where four or more remain to judge by.
        var start = slices.Length > FewestSlices ? 1 : 0;
        var score = 0;
        for (var i = start; i < slices.Length; i++)
        {
            for (var k = i + 1; k < slices.Length; k++)
            {
                score += Math.Sign(Level(slices[k]) - Level(slices[i]));
            }
        }

        return score < 0
            ? null
            : string.Create(
                CultureInfo.InvariantCulture,
                $"its contents do not fall with depth (rises less falls over all pairs of slices: {score}; allowed: below 0)"
            );
    }

    /// <summary>The profile of a core's fit with the slices that the fit used.</summary>
    /// <param name="fit">The fit of the core.</param>
    public static CoreProfile Used(ProfileFit fit)
    {
        var excluded = fit.Excluded.Select(e => e.Row).ToHashSet();
        if (excluded.Count == 0)
        {
            return fit.Profile;
        }

        // Slices that came from no file have no row; what is left out lies at the surface.
        ImmutableArray<ChlorideSlice> kept = excluded.Contains(0)
            ? fit.Profile.Slices[fit.Excluded.Length..]
            : [.. fit.Profile.Slices.Where(s => !excluded.Contains(s.Row))];
        return fit.Profile with { Slices = kept };
    }

    private static double Level(ChlorideSlice slice) => slice.Content.KilogramsPerCubicMetre;
}
