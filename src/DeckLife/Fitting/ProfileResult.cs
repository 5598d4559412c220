using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Puts a fit into words and numbers: estimates, limits, flags, status.</summary>
internal static class ProfileResult
{
    /// <summary>Composes the result of a search that was not refused.</summary>
    public static ProfileFit Compose(
        ProfileFit draft,
        ImmutableArray<ChlorideSlice> used,
        ProfileSearch search,
        bool heldByProgram,
        List<Diagnostic> flags
    )
    {
        var options = draft.Options;
        var data = search.Objective.Data;
        var best = search.Best;
        var nu = Math.Max(1, data.DegreesOfFreedom);
        var atBound = data.FixedBackground is null && best.Background <= 0;
        var covariance = ProfileCovariance.Compute(
            search,
            options.Law,
            data.FixedBackground is null && !atBound
        );
        var overKinds = ErrorKindLimits.AreAsked(options);
        var known =
            options.Limits == LimitMethod.Bootstrap
                ? ProfileBootstrap.Limits(search, options, atBound)
                : LimitSet.FromProfile(search, atBound);
        var limits = overKinds ? ErrorKindLimits.Over(search, options, known, atBound) : known;
        var surface = Make(
            best.Surface,
            covariance is null ? null : Math.Sqrt(covariance[0]),
            nu
        ) with
        {
            Lower95 = limits.SurfaceLow,
            Upper95 = limits.SurfaceHigh,
            LimitMethod = limits.Method,
            ConstantErrorsLower95 = overKinds ? known.SurfaceLow : null,
            ConstantErrorsUpper95 = overKinds ? known.SurfaceHigh : null,
            MissingReason = Missing(limits.SurfaceLow, limits.SurfaceHigh, covariance),
        };
        var d = Math.Exp(best.LnDiffusion);
        var diffusion = Make(d, covariance is null ? null : d * Math.Sqrt(covariance[4]), nu) with
        {
            Lower95 = limits.DiffusionLow,
            Upper95 = limits.DiffusionHigh,
            LimitMethod = limits.Method,
            ConstantErrorsLower95 = overKinds ? known.DiffusionLow : null,
            ConstantErrorsUpper95 = overKinds ? known.DiffusionHigh : null,
            MissingReason = Missing(limits.DiffusionLow, limits.DiffusionHigh, covariance),
        };
        var background = Background(data, best, covariance, limits, atBound, nu);
        if (overKinds && data.FixedBackground is null)
        {
            background = background with
            {
                ConstantErrorsLower95 = known.BackgroundLow,
                ConstantErrorsUpper95 = known.BackgroundHigh,
            };
        }

        var fit = draft with
        {
            Status = FitStatus.Fitted,
            SurfaceChloride = surface,
            DiffusionCoefficient = diffusion,
            Background = background,
            ResidualStandardDeviation = ResidualSd(search),
            DegreesOfFreedom = data.DegreesOfFreedom,
            Covariance = covariance is null ? [] : [.. covariance],
            Correlation = covariance is null
                ? null
                : Ratio(covariance[1], covariance[0], covariance[4]),
            RSquared = RSquared(search),
            SearchLow = Math.Exp(search.Grid[0].LnDiffusion),
            SearchHigh = Math.Exp(search.Grid[^1].LnDiffusion),
            Method = MethodText(options, data),
            Slices = FittedSlices(search, options),
            Influence = options.Influence ? ProfileInfluence.Compute(data, options) : [],
        };
        var reasons = ProfileFlags.Add(fit, used, search, heldByProgram, flags);
        return fit with
        {
            Status = reasons.Count > 0 ? FitStatus.Limited : FitStatus.Fitted,
            Reason = reasons.Count > 0 ? string.Join(" ", reasons) : null,
            Flags = [.. flags],
        };
    }

    private static Estimate Make(double value, double? standardError, int degreesOfFreedom)
    {
        if (standardError is not { } se)
        {
            return new Estimate(value);
        }

        var t = LimitCut.TwoSided95(degreesOfFreedom).Student;
        return new Estimate(value)
        {
            StandardError = se,
            PlainLower95 = value - (t * se),
            PlainUpper95 = value + (t * se),
        };
    }

    private static Estimate Background(
        ProfileData data,
        ProfilePoint best,
        double[]? covariance,
        LimitSet limits,
        bool atBound,
        int nu
    )
    {
        if (data.FixedBackground is { } held)
        {
            return new Estimate(held) { IsFixed = true, MissingReason = "held, not estimated" };
        }

        if (atBound)
        {
            return new Estimate(0)
            {
                IsAtBound = true,
                Upper95 = limits.BackgroundHigh,
                LimitMethod = limits.Method + ", one-sided",
                MissingReason =
                    "at its bound 0: no standard error and no lower limit"
                    + (
                        limits.BackgroundHigh is null
                            ? "; the upper limit is not within the search interval of D"
                            : string.Empty
                    ),
            };
        }

        return Make(best.Background, covariance is null ? null : Math.Sqrt(covariance[8]), nu) with
        {
            Lower95 = limits.BackgroundLow,
            Upper95 = limits.BackgroundHigh,
            LimitMethod = limits.Method,
            MissingReason = Missing(limits.BackgroundLow, limits.BackgroundHigh, covariance),
        };
    }

    private static string? Missing(double? low, double? high, double[]? covariance)
    {
        var parts = new List<string>();
        if (covariance is null)
        {
            parts.Add("no standard error: the information matrix is singular");
        }

        if (low is null)
        {
            parts.Add("no lower limit within the search interval of D");
        }

        if (high is null)
        {
            parts.Add("no upper limit within the search interval of D");
        }

        return parts.Count == 0 ? null : string.Join("; ", parts);
    }

    private static double? Ratio(double covariance, double one, double other)
    {
        var product = Math.Sqrt(one * other);
        return product > 0 ? covariance / product : null;
    }

    // In kg/m³: the scale times the error of a slice of mean weight, for constant weights the scale itself.
    private static double? ResidualSd(ProfileSearch search)
    {
        var data = search.Objective.Data;
        if (data.DegreesOfFreedom < 1)
        {
            return null;
        }

        var means = ProfileSolver.Means(data, search.Best);
        var sum = 0.0;
        for (var i = 0; i < data.Count; i++)
        {
            sum += data.Censored[i] ? 0 : Math.Pow(data.Content[i] - means[i], 2);
        }

        return Math.Sqrt(sum / data.DegreesOfFreedom);
    }

    private static double? RSquared(ProfileSearch search)
    {
        var data = search.Objective.Data;
        if (data.Detected < data.Count)
        {
            return null;
        }

        var means = ProfileSolver.Means(data, search.Best);
        var average = data.Content.Average();
        var residual = 0.0;
        var total = 0.0;
        for (var i = 0; i < data.Count; i++)
        {
            residual += Math.Pow(data.Content[i] - means[i], 2);
            total += Math.Pow(data.Content[i] - average, 2);
        }

        return total > 0 ? 1 - (residual / total) : null;
    }

    private static ImmutableArray<FittedSlice> FittedSlices(
        ProfileSearch search,
        ProfileFitOptions options
    )
    {
        var data = search.Objective.Data;
        var means = ProfileSolver.Means(data, search.Best);
        var scale = ProfileCovariance.Scale(search);
        return
        [
            .. Enumerable
                .Range(0, data.Count)
                .Select(i =>
                {
                    var sd = scale / Math.Sqrt(data.Weight[i]);
                    var u = sd > 0 ? (data.Content[i] - means[i]) / sd : 0;
                    var weight =
                        options.Law == ErrorLaw.Student && !data.Censored[i]
                            ? LikelihoodObjective.StudentDegrees
                                / (LikelihoodObjective.StudentDegrees + (u * u))
                            : 1;
                    return new FittedSlice(
                        data.Rows[i],
                        data.TopMm[i],
                        data.BottomMm[i],
                        data.Content[i],
                        data.Censored[i],
                        means[i],
                        sd,
                        weight
                    );
                }),
        ];
    }

    private static string MethodText(ProfileFitOptions options, ProfileData data)
    {
        var errors = options.Weights switch
        {
            SliceWeights.Constant => "one standard deviation for all slices, estimated",
            SliceWeights.Relative =>
                "errors in proportion to the fitted content, estimated (iteratively reweighted least squares)",
            _ => "standard deviations given for each slice",
        };
        var law =
            options.Law == ErrorLaw.Student ? "Student's t with 4 degrees of freedom" : "normal";
        var share = options.AsPoints ? "contents at mid-depth" : "slice means";
        var censoring = data.Detected < data.Count ? ", censored likelihood" : string.Empty;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{share}; {law} errors{censoring}; {errors}"
        );
    }
}
