using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>When no estimate is given, by rule.</summary>
internal static class RefusalRules
{
    /// <summary>The rules that need no fit.</summary>
    public static Diagnostic? BeforeFitting(
        CoreProfile profile,
        ImmutableArray<ChlorideSlice> used,
        int skipped,
        ProfileFitOptions options
    )
    {
        if (!(profile.ExposureAge.Years > 0))
        {
            return DiagnosticCatalogue.NoExposure.With(profile.ExposureAge.Years);
        }

        var detected = used.Count(s => !s.IsNonDetect);
        if (used.Length > 0 && detected == 0)
        {
            return DiagnosticCatalogue.AllBelowDetection.With(used.Length);
        }

        var held = options.Background == BackgroundTreatment.Fixed;
        var free = held ? 2 : 3;
        // With further slices below detection, three measured ones do: the background is then held by the program.
        var needed = !held && used.Length > 3 && detected == 3 ? 3 : free + 1;
        if (detected < needed)
        {
            return DiagnosticCatalogue.TooFewSlices.With(
                detected,
                free,
                held ? "Cs, D" : "Cs, D, C0",
                free + 1,
                held || detected < 3
                    ? "Take more slices."
                    : "Hold the background (--background) or take more slices."
            );
        }

        if (options.Weights == SliceWeights.Given)
        {
            var missing = used.Where(s => !(s.StandardDeviation > 0)).Select(s => s.Row).ToArray();
            if (missing.Length > 0)
            {
                return DiagnosticCatalogue.GivenSdMissing.With(
                    string.Join(", ", missing.Select(r => r.ToString(CultureInfo.InvariantCulture)))
                );
            }
        }

        return NotFalling(profile, used, skipped);
    }

    /// <summary>The rule on the search interval, whose ends the options or the depths give.</summary>
    public static Diagnostic? OfInterval(ProfileData data, ProfileFitOptions options)
    {
        var (low, high) = ProfileSearch.Interval(data, options);
        return double.IsFinite(low) && low < high
            ? null
            : DiagnosticCatalogue.SearchIntervalEmpty.With(Math.Exp(low), Math.Exp(high));
    }

    /// <summary>The rules that need the search.</summary>
    public static Diagnostic? AfterSearch(ProfileSearch search)
    {
        var low = Math.Exp(search.Grid[0].LnDiffusion);
        var high = Math.Exp(search.Grid[^1].LnDiffusion);
        if (search.Grid.Max(g => g.Excess) <= 0 && search.Objective.Data.FixedBackground is { } c0)
        {
            return DiagnosticCatalogue.BackgroundAboveContents.With(c0);
        }

        if (search.AtLowEnd || search.AtHighEnd)
        {
            return DiagnosticCatalogue.OptimumAtSearchEnd.With(
                search.AtLowEnd ? "lower" : "upper",
                low,
                high,
                search.AtLowEnd
                    ? "only the shallowest slice stands out, so Cs and D can't be told apart."
                    : "the profile is a straight line or flatter, so Cs and D can't be told apart."
            );
        }

        return null;
    }

    private static Diagnostic? NotFalling(
        CoreProfile profile,
        ImmutableArray<ChlorideSlice> used,
        int skipped
    )
    {
        var first = used[0].Content;
        if (used.All(s => s.Content == first))
        {
            return DiagnosticCatalogue.NoSpread.With(first.KilogramsPerCubicMetre);
        }

        // The shallowest slice of the core is left out of the count, unless it has been left out already.
        var data = ProfileDataBuilder.Build(profile, used, new ProfileFitOptions());
        var tau = FallRule.KendallTau(data, skipped > 0 ? 0 : 1);
        return tau < 0 ? null : DiagnosticCatalogue.ContentsDoNotFall.With(tau);
    }
}
