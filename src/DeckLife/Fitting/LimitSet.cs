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
        var cut = data.ScaleIsKnown
            ? "profile likelihood, chi-square cut of known errors"
            : string.Create(CultureInfo.InvariantCulture, $"profile likelihood, F(1, {nu}) cut");
        return Within(
            search,
            backgroundAtBound,
            search.Objective.Threshold(search.Best, LimitCut.TwoSided95(nu)),
            cut
        );
    }

    /// <summary>Limits of all values that some fit with an objective up to a threshold agrees with.</summary>
    public static LimitSet Within(
        ProfileSearch search,
        bool backgroundAtBound,
        double threshold,
        string method
    )
    {
        var two = new ProfileLimits(search, threshold);
        double? low = null;
        double? high = null;
        if (search.Objective.Data.FixedBackground is null)
        {
            low = backgroundAtBound ? null : two.Of(ProfileParameter.Background, upper: false);
            high = two.Of(ProfileParameter.Background, upper: true);
        }

        return new LimitSet(
            method,
            two.Of(ProfileParameter.Surface, upper: false),
            two.Of(ProfileParameter.Surface, upper: true),
            two.LnDiffusionLow is { } l ? Math.Exp(l) : null,
            two.LnDiffusionHigh is { } h ? Math.Exp(h) : null,
            low,
            high
        );
    }
}
