using System.Collections.Immutable;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Turns the slices of a core into the plain numbers of a fit.</summary>
internal static class ProfileDataBuilder
{
    /// <summary>Builds them; slices are ordered by depth.</summary>
    public static ProfileData Build(
        CoreProfile profile,
        ImmutableArray<ChlorideSlice> used,
        ProfileFitOptions options
    )
    {
        var given = options.Weights == SliceWeights.Given;
        return new ProfileData
        {
            Rows = [.. used.Select(s => s.Row)],
            TopMm = [.. used.Select(s => options.AsPoints ? s.CentreMm : s.Top.Millimetres)],
            BottomMm = [.. used.Select(s => options.AsPoints ? s.CentreMm : s.Bottom.Millimetres)],
            Content = [.. used.Select(s => s.Content.KilogramsPerCubicMetre)],
            Censored = [.. used.Select(s => s.IsNonDetect)],
            Replicates = [.. used.Select(s => (double)Math.Max(1, s.Replicates))],
            Weight =
            [
                .. used.Select(s =>
                    given
                        ? 1 / (s.StandardDeviation!.Value * s.StandardDeviation.Value)
                        : Math.Max(1, s.Replicates)
                ),
            ],
            ScaleIsKnown = given,
            Years = profile.ExposureAge.Years,
            FixedBackground =
                options.Background == BackgroundTreatment.Fixed
                    ? options.FixedBackground.KilogramsPerCubicMetre
                    : null,
        };
    }
}
