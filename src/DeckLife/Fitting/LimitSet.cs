using System.Globalization;

namespace DeckLife.Fitting;

/// <summary>The limits of one fit; absent where the data do not bound a parameter.</summary>
internal sealed record LimitSet(
    string Method,
    double? SurfaceLow,
    double? SurfaceHigh,
    double? DiffusionLow,
    double? DiffusionHigh,
    double? BackgroundLow,
    double? BackgroundHigh
)
{
    /// <summary>Limits by profile likelihood; of a background at its bound the upper one alone.</summary>
    /// <remarks>
    /// Backgrounds come out at their bound where the errors pulled them down, so limits that miss by lying low gather there. The cut of a
    /// one-sided 95 % limit then holds too seldom; that of the two-sided limits is kept. Checked by reference-checks/studies/profile-coverage.md.
    /// </remarks>
    public static LimitSet FromProfile(ProfileSearch search, bool backgroundAtBound)
    {
        var data = search.Objective.Data;
        var nu = Math.Max(1, data.DegreesOfFreedom);
        var two = new ProfileLimits(search, LimitCut.TwoSided95(nu));
        double? low = null;
        double? high = null;
        if (data.FixedBackground is null)
        {
            low = backgroundAtBound ? null : two.Of(ProfileParameter.Background, upper: false);
            high = two.Of(ProfileParameter.Background, upper: true);
        }

        var cut = data.ScaleIsKnown
            ? "profile likelihood, chi-square cut of known errors"
            : string.Create(CultureInfo.InvariantCulture, $"profile likelihood, F(1, {nu}) cut");
        return new LimitSet(
            cut,
            two.Of(ProfileParameter.Surface, upper: false),
            two.Of(ProfileParameter.Surface, upper: true),
            two.LnDiffusionLow is { } l ? Math.Exp(l) : null,
            two.LnDiffusionHigh is { } h ? Math.Exp(h) : null,
            low,
            high
        );
    }
}
