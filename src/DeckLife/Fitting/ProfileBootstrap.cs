using System.Globalization;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Fitting;

/// <summary>Limits by the parametric bootstrap: cores drawn from the fitted curve and its scatter, each fitted again.</summary>
/// <remarks>
/// Method: bootstrap-t. For each replicate t* = (estimate* - estimate) / s.e.*; the limits are estimate - t*(0.975) s.e. and
/// estimate - t*(0.025) s.e., for D in ln D. Contents below a detection limit are censored again at it. Source: Efron and Tibshirani, An
/// Introduction to the Bootstrap (1993), chapter 12. Replicates whose D lies at the end of the search interval count as beyond every
/// limit on their side. Checked by: ProfileBootstrapTests.
/// </remarks>
internal static class ProfileBootstrap
{
    private const double Tail = 0.025;

    /// <summary>Draws, refits and takes the limits.</summary>
    public static LimitSet Limits(ProfileSearch search, ProfileFitOptions options, bool atBound)
    {
        var data = search.Objective.Data;
        if (atBound)
        {
            // The bootstrap is inconsistent where a parameter lies on its bound (Andrews, Econometrica 68 (2000) 399).
            var profile = LimitSet.FromProfile(search, backgroundAtBound: true);
            return profile with
            {
                Method = profile.Method + " (the bootstrap does not hold at a bound)",
            };
        }

        // The same scale for all replicates: with the background free, at its bound or not.
        var covariance = ProfileCovariance.Compute(
            search,
            options.Law,
            data.FixedBackground is null
        );
        var count = Math.Max(200, options.BootstrapReplicates);
        var method = string.Create(
            CultureInfo.InvariantCulture,
            $"parametric bootstrap-t, {count} replicates, seed {options.Seed}"
        );
        if (covariance is null)
        {
            return new LimitSet(method, null, null, null, null, null, null);
        }

        var means = ProfileSolver.Means(data, search.Best);
        var scale = ProfileCovariance.Scale(search);
        var surface = new List<double>(count);
        var diffusion = new List<double>(count);
        var background = new List<double>(count);
        for (var r = 0; r < count; r++)
        {
            var random = new RandomStream(options.Seed, "profile bootstrap", (ulong)r);
            Replicate(
                Draw(data, means, scale, random),
                search,
                options,
                surface,
                diffusion,
                background
            );
        }

        var sd = (
            Surface: Math.Sqrt(covariance[0]),
            Diffusion: Math.Sqrt(covariance[4]),
            Background: Math.Sqrt(covariance[8])
        );
        var best = search.Best;
        var (lnLow, lnHigh) = Ends(best.LnDiffusion, sd.Diffusion, diffusion);
        var (surfaceLow, surfaceHigh) = Ends(best.Surface, sd.Surface, surface);
        var (backgroundLow, backgroundHigh) = Ends(best.Background, sd.Background, background);
        var free = data.FixedBackground is null;
        return new LimitSet(
            method,
            surfaceLow is { } s ? Math.Max(0, s) : null,
            surfaceHigh,
            lnLow is { } l ? Math.Exp(l) : null,
            lnHigh is { } h ? Math.Exp(h) : null,
            free && backgroundLow is { } b ? Math.Max(0, b) : null,
            free ? backgroundHigh : null
        );
    }

    private static void Replicate(
        ProfileData drawn,
        ProfileSearch search,
        ProfileFitOptions options,
        List<double> surface,
        List<double> diffusion,
        List<double> background
    )
    {
        var best = search.Best;
        var again = ProfileSolver.Solve(drawn, options);
        if (drawn.Detected <= drawn.FreeParameters || again.AtLowEnd || again.AtHighEnd)
        {
            // No estimate: beyond every limit, D on the side where it went, Cs on the other.
            var side = again.AtHighEnd ? double.PositiveInfinity : double.NegativeInfinity;
            diffusion.Add(side);
            surface.Add(-side);
            background.Add(again.Best.Background);
            return;
        }

        var covariance = ProfileCovariance.Compute(
            again,
            options.Law,
            drawn.FixedBackground is null
        );
        if (covariance is null || !(covariance[4] > 0))
        {
            diffusion.Add(double.PositiveInfinity);
            surface.Add(double.NegativeInfinity);
            background.Add(again.Best.Background);
            return;
        }

        diffusion.Add((again.Best.LnDiffusion - best.LnDiffusion) / Math.Sqrt(covariance[4]));
        surface.Add((again.Best.Surface - best.Surface) / Math.Sqrt(covariance[0]));
        background.Add(
            best.Background > 0 && covariance[8] > 0
                ? (again.Best.Background - best.Background) / Math.Sqrt(covariance[8])
                : again.Best.Background - best.Background
        );
    }

    // New contents about the fitted curve, never negative; a slice that was below its limit is censored again where it falls below.
    private static ProfileData Draw(
        ProfileData data,
        double[] means,
        double scale,
        RandomStream random
    )
    {
        var content = new double[data.Count];
        var censored = new bool[data.Count];
        for (var i = 0; i < content.Length; i++)
        {
            var drawn = means[i] + (scale / Math.Sqrt(data.Weight[i]) * random.NextNormal());
            censored[i] = data.Censored[i] && drawn < data.Content[i];
            content[i] = censored[i] ? data.Content[i] : Math.Max(0, drawn);
        }

        return data.WithContents(content, censored);
    }

    private static (double? Low, double? High) Ends(double value, double sd, List<double> t)
    {
        double? End(double probability) =>
            Quantile(t, probability) is { } q ? value - (q * sd) : null;
        return (End(1 - Tail), End(Tail));
    }

    private static double? Quantile(List<double> values, double probability)
    {
        var sorted = values.Order().ToArray();
        var at = sorted[
            Math.Clamp((int)(probability * (sorted.Length + 1)) - 1, 0, sorted.Length - 1)
        ];
        return double.IsFinite(at) ? at : null;
    }
}
