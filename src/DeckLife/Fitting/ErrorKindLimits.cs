namespace DeckLife.Fitting;

/// <summary>Limits that hold for every kind of error from constant to in proportion to the content, as far as the slices leave it likely.</summary>
/// <remarks>
/// Equation: variance of a slice = s² ((1 - r) g² + r m²) / replicates, m its fitted content, g their geometric mean, s free, r from 0 to 1. For
/// each r a profile likelihood with the F(1, n - p) cut; its fall is lessened by what the restricted likelihood of r lies below that of the
/// likeliest r, beyond an allowance; the limits are the outermost over all r.
/// Method: variances estimated with the curve (Carroll and Ruppert, Transformation and Weighting in Regression, 1988, chapters 2 and 3), the
/// largest set over a nuisance parameter that the data leave open (Berger and Boos, JASA 89 (1994) 1012). The allowance is this project's own
/// judgement by simulation: without it the limits hold in 92 to 93 % of the worst cells, with it in at least 93.
/// Valid for: 4 slices or more; normal or Student's t errors, non-detects. Checked by reference-checks/studies/profile-coverage.md.
/// </remarks>
internal static class ErrorKindLimits
{
    // Twice the logarithm of a likelihood ratio of 0.6: a kind of error this near the likeliest counts in full.
    private const double Allowance = 1;

    private static readonly double[] ProportionalShares = [0.1, 0.5, 0.9, 1];

    /// <summary>Whether a fit's limits are to be taken over the kinds of error.</summary>
    public static bool AreAsked(ProfileFitOptions options) =>
        options.LimitsOverErrorKinds
        && options.Weights == SliceWeights.Constant
        && options.Limits == LimitMethod.ProfileLikelihood;

    /// <summary>Takes them.</summary>
    /// <param name="search">The fit with constant weights.</param>
    /// <param name="options">The choices it was made with.</param>
    /// <param name="known">Its own limits.</param>
    /// <param name="backgroundAtBound">Whether its background is at the bound: it has then no lower limit.</param>
    public static LimitSet Over(
        ProfileSearch search,
        ProfileFitOptions options,
        LimitSet known,
        bool backgroundAtBound
    )
    {
        var data = search.Objective.Data;
        var own = LogLikelihood(search, options.Law);
        if (own is null)
        {
            return known;
        }

        var kinds = new List<(ProfileSearch Search, double LogLikelihood)> { (search, own.Value) };
        foreach (var share in ProportionalShares)
        {
            var kind = ProfileSolver.Solve(data, options, share);
            if (LogLikelihood(kind, options.Law) is { } value)
            {
                kinds.Add((kind, value));
            }
        }

        var nu = Math.Max(1, data.DegreesOfFreedom);
        var student = LimitCut.TwoSided95(nu).Student;
        var full = nu * Math.Log(1 + (student * student / nu));
        var most = kinds.Max(k => k.LogLikelihood);
        var method = known.Method + ", over errors from constant to in proportion to the content";
        LimitSet? over = null;
        foreach (var (kind, value) in kinds)
        {
            var fall = full - Math.Max(0, (2 * (most - value)) - Allowance);
            if (fall > 0)
            {
                var limits = LimitSet.Within(
                    kind,
                    backgroundAtBound,
                    kind.Objective.ThresholdAfter(kind.Best, fall),
                    method
                );
                over = over is null ? limits : Outermost(over, limits);
            }
        }

        return Around(over ?? known, search);
    }

    /// <summary>Restricted log-likelihood of the weights, the scale and the curve's parameters taken out; absent where there is no information.</summary>
    /// <remarks>Source: Patterson and Thompson, Biometrika 58 (1971) 545.</remarks>
    public static double? LogLikelihood(ProfileSearch search, ErrorLaw law)
    {
        if (ProfileCovariance.LogInformation(search, law) is not { } information)
        {
            return null;
        }

        var data = search.Objective.Data;
        var weights = 0.0;
        for (var i = 0; i < data.Count; i++)
        {
            weights += data.Censored[i] ? 0 : Math.Log(data.Weight[i]);
        }

        return 0.5 * (weights - information - search.Objective.Deviance(search.Best));
    }

    private static LimitSet Outermost(LimitSet one, LimitSet other) =>
        new(
            one.Method,
            Least(one.SurfaceLow, other.SurfaceLow),
            Most(one.SurfaceHigh, other.SurfaceHigh),
            Least(one.DiffusionLow, other.DiffusionLow),
            Most(one.DiffusionHigh, other.DiffusionHigh),
            Least(one.BackgroundLow, other.BackgroundLow),
            Most(one.BackgroundHigh, other.BackgroundHigh)
        );

    // Where the slices speak against constant errors, the estimates may lie outside: the limits then reach to them.
    private static LimitSet Around(LimitSet limits, ProfileSearch search)
    {
        var (d, cs, c0) = (
            Math.Exp(search.Best.LnDiffusion),
            search.Best.Surface,
            search.Best.Background
        );
        return limits with
        {
            SurfaceLow = Least(limits.SurfaceLow, cs),
            SurfaceHigh = Most(limits.SurfaceHigh, cs),
            DiffusionLow = Least(limits.DiffusionLow, d),
            DiffusionHigh = Most(limits.DiffusionHigh, d),
            BackgroundLow = Least(limits.BackgroundLow, c0),
            BackgroundHigh = Most(limits.BackgroundHigh, c0),
        };
    }

    private static double? Least(double? one, double? other) =>
        one is { } a && other is { } b ? Math.Min(a, b) : null;

    private static double? Most(double? one, double? other) =>
        one is { } a && other is { } b ? Math.Max(a, b) : null;
}
