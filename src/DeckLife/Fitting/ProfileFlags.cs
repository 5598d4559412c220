using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
using MathNet.Numerics.Distributions;

namespace DeckLife.Fitting;

/// <summary>What a reviewer should know of a fit, each with its numbers, and what makes it limited.</summary>
internal static class ProfileFlags
{
    // Judgement, all four; they decide what is said of a fit, never the fit. Left of the surface's excess at the deepest slice; halved, most cores
    // of ordinary depth would be flagged.
    private const double NotReachedShare = 0.10;

    // From here on the limits of Cs and D say little one by one: given the other, each is known three times as well, √(1 - 0.95²).
    private const double StrongCorrelation = 0.95;

    // Leaving a slice out changes the D of real cores by a factor of 1.2 to 1.8 (quartiles, as DL2010 says): beyond 2 one slice decides.
    private const double InfluenceFactor = 2;

    // The weight 4/(4 + u²) of Student's t of a residual of u = 3.1 standard deviations.
    private const double SlipWeight = 0.3;

    /// <summary>Adds the flags; returns the reasons why the fit is limited.</summary>
    public static List<string> Add(
        ProfileFit fit,
        ImmutableArray<ChlorideSlice> used,
        ProfileSearch search,
        bool heldByProgram,
        List<Diagnostic> flags
    )
    {
        var reasons = new List<string>();
        AddData(fit, used, flags);
        AddBackground(fit, search, heldByProgram, flags, reasons);
        AddLimits(fit, flags, reasons);
        AddPlausibility(fit, search, flags);
        AddErrors(fit, search, flags);
        AddInfluence(fit, flags);
        return reasons;
    }

    private static void AddData(
        ProfileFit fit,
        ImmutableArray<ChlorideSlice> used,
        List<Diagnostic> flags
    )
    {
        var points = used.Count(s => fit.Options.AsPoints || s.IsCentreOnly);
        if (points > 0)
        {
            flags.Add(
                DiagnosticCatalogue.FittedAsPoints.With(
                    points,
                    used.Length,
                    fit.Options.AsPoints ? ", as asked" : ", since only their centres are given"
                )
            );
        }

        var censored = used.Count(s => s.IsNonDetect);
        if (censored > 0)
        {
            flags.Add(DiagnosticCatalogue.NonDetects.With(censored, used.Length));
        }

        var (last, before) = (used[^1], used[^2]);
        if (!last.IsNonDetect && last.Content > before.Content && last.CentreMm > before.CentreMm)
        {
            flags.Add(
                DiagnosticCatalogue.CarryDown.With(
                    last.Row,
                    last.Content.KilogramsPerCubicMetre,
                    before.Content.KilogramsPerCubicMetre
                ) with
                {
                    Row = last.Row,
                }
            );
        }

        if (fit.DegreesOfFreedom <= 2)
        {
            flags.Add(
                DiagnosticCatalogue.FewDegreesOfFreedom.With(
                    used.Length - censored,
                    used.Length - censored - fit.DegreesOfFreedom,
                    fit.DegreesOfFreedom
                )
            );
        }
    }

    private static void AddBackground(
        ProfileFit fit,
        ProfileSearch search,
        bool heldByProgram,
        List<Diagnostic> flags,
        List<string> reasons
    )
    {
        var data = search.Objective.Data;
        if (heldByProgram)
        {
            var limit = Enumerable
                .Range(0, data.Count)
                .Where(i => data.Censored[i])
                .Max(i => data.Content[i]);
            var other = ProfileSolver.Solve(data.WithBackground(limit), fit.Options);
            double? d = other.AtLowEnd || other.AtHighEnd ? null : Math.Exp(other.Best.LnDiffusion);
            var flag = DiagnosticCatalogue.BackgroundHeldByProgram.With(
                data.Detected,
                limit,
                FitText.Diffusion(d)
            );
            flags.Add(flag);
            reasons.Add(flag.Text);
        }
        else if (fit.Background!.IsAtBound)
        {
            var flag = DiagnosticCatalogue.BackgroundAtBound.With(
                FitText.Content(fit.Background.Upper95)
            );
            flags.Add(flag);
            reasons.Add(flag.Text);
        }

        if (data.FixedBackground is not null)
        {
            return;
        }

        var deepest = fit.Slices[^1];
        var share =
            search.Best.Excess > 0
                ? (deepest.Fitted - search.Best.Background) / search.Best.Excess
                : 0;
        if (share > NotReachedShare)
        {
            flags.Add(
                DiagnosticCatalogue.BackgroundNotReached.With(
                    0.5 * (deepest.TopMm + deepest.BottomMm),
                    share
                )
            );
        }
    }

    private static void AddLimits(ProfileFit fit, List<Diagnostic> flags, List<string> reasons)
    {
        Check("D", fit.DiffusionCoefficient!);
        Check("Cs", fit.SurfaceChloride!);

        void Check(string name, Estimate estimate)
        {
            foreach (
                var (side, value) in new[]
                {
                    ("lower", estimate.Lower95),
                    ("upper", estimate.Upper95),
                }
            )
            {
                if (value is null)
                {
                    var flag = DiagnosticCatalogue.OneSidedLimit.With(
                        side,
                        name,
                        fit.SearchLow,
                        fit.SearchHigh
                    );
                    flags.Add(flag);
                    reasons.Add(flag.Text);
                }
            }
        }
    }

    private static void AddPlausibility(
        ProfileFit fit,
        ProfileSearch search,
        List<Diagnostic> flags
    )
    {
        var most = fit.Options.PlausibleSurface.KilogramsPerCubicMetre;
        if (fit.SurfaceChloride!.Value > most)
        {
            flags.Add(DiagnosticCatalogue.ImplausibleSurface.With(fit.SurfaceChloride.Value, most));
        }

        var c = fit.Covariance;
        if (c.Length == 9)
        {
            AddCorrelation("Cs", "ln D", c[1], c[0], c[4], flags);
            AddCorrelation("ln D", "C0", c[5], c[4], c[8], flags);
            AddCorrelation("Cs", "C0", c[2], c[0], c[8], flags);
        }

        var threshold = search.Objective.Threshold(
            search.Best,
            LimitCut.TwoSided95(Math.Max(1, fit.DegreesOfFreedom))
        );
        foreach (var other in search.OtherMinima.Where(m => m.Objective <= threshold))
        {
            flags.Add(DiagnosticCatalogue.SeveralMinima.With(Math.Exp(other.LnDiffusion)));
        }
    }

    private static void AddCorrelation(
        string one,
        string other,
        double covariance,
        double varianceOne,
        double varianceOther,
        List<Diagnostic> flags
    )
    {
        var product = Math.Sqrt(varianceOne * varianceOther);
        if (product > 0 && Math.Abs(covariance / product) > StrongCorrelation)
        {
            flags.Add(DiagnosticCatalogue.HighCorrelation.With(one, other, covariance / product));
        }
    }

    private static void AddErrors(ProfileFit fit, ProfileSearch search, List<Diagnostic> flags)
    {
        var data = search.Objective.Data;
        if (fit.Options.Weights == SliceWeights.Relative)
        {
            flags.Add(
                DiagnosticCatalogue.RelativeErrorFloor.With(
                    ProfileSolver.RelativeFloor(data, fit.Options)
                )
            );
        }

        if (data.ScaleIsKnown && search.Objective is LeastSquaresObjective)
        {
            var nu = data.DegreesOfFreedom;
            var most = ChiSquared.InvCDF(nu, 0.975);
            if (search.Best.Objective > most)
            {
                flags.Add(
                    DiagnosticCatalogue.ErrorsExceedGiven.With(
                        Math.Sqrt(search.Best.Objective / nu),
                        search.Best.Objective,
                        nu,
                        most
                    )
                );
            }
        }

        foreach (var slice in fit.Slices.Where(s => s.Weight < SlipWeight))
        {
            flags.Add(
                DiagnosticCatalogue.SlipDownweighted.With(
                    slice.Row,
                    Math.Abs(slice.Measured - slice.Fitted) / slice.StandardDeviation,
                    slice.Weight
                ) with
                {
                    Row = slice.Row,
                }
            );
        }

        AddLackOfFit(fit, flags);
    }

    // Repeated determinations of one slice: pure error against the misfit of their means.
    private static void AddLackOfFit(ProfileFit fit, List<Diagnostic> flags)
    {
        if (fit.Slices.Any(s => s.IsNonDetect))
        {
            return;
        }

        var groups = fit.Slices.GroupBy(s => (s.TopMm, s.BottomMm)).ToArray();
        var pure = 0.0;
        var misfit = 0.0;
        foreach (var group in groups)
        {
            var weight = group.Average(s => 1 / Math.Pow(s.StandardDeviation, 2));
            var mean = group.Average(s => s.Measured);
            pure += group.Sum(s => weight * Math.Pow(s.Measured - mean, 2));
            misfit += weight * group.Count() * Math.Pow(mean - group.First().Fitted, 2);
        }

        var pureDegrees = fit.Slices.Length - groups.Length;
        var misfitDegrees = fit.DegreesOfFreedom - pureDegrees;
        if (pureDegrees < 1 || misfitDegrees < 1 || !(pure > 0))
        {
            return;
        }

        var f = misfit / misfitDegrees / (pure / pureDegrees);
        var most = FisherSnedecor.InvCDF(misfitDegrees, pureDegrees, 0.95);
        if (f > most)
        {
            flags.Add(DiagnosticCatalogue.LackOfFit.With(f, misfitDegrees, pureDegrees, most));
        }
    }

    private static void AddInfluence(ProfileFit fit, List<Diagnostic> flags)
    {
        var d = fit.DiffusionCoefficient!.Value;
        SliceInfluence[] strong =
        [
            .. fit.Influence.Where(i =>
                i.DiffusionCoefficient / d is > InfluenceFactor or < 1 / InfluenceFactor
            ),
        ];
        if (strong.Length > 0)
        {
            var changes = strong.Select(i => new MessageTemplate(
                "without row {0} it would be {1}, {2:G3} times as much",
                i.Row,
                FitText.Diffusion(i.DiffusionCoefficient),
                i.DiffusionCoefficient / d ?? 0
            ));
            flags.Add(
                DiagnosticCatalogue.InfluentialSlice.With(FitText.Join("; ", [.. changes])) with
                {
                    Row = OnlyRow(strong),
                }
            );
        }

        SliceInfluence[] indispensable =
        [
            .. fit.Influence.Where(i => i.DiffusionCoefficient is null),
        ];
        if (indispensable.Length > 0)
        {
            flags.Add(
                DiagnosticCatalogue.IndispensableSlice.With(FitText.AnyOfRows(indispensable)) with
                {
                    Row = OnlyRow(indispensable),
                }
            );
        }
    }

    // A message on several slices stands at none of their rows.
    private static int? OnlyRow(SliceInfluence[] slices) =>
        slices.Length == 1 ? slices[0].Row : null;
}
