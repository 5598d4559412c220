using System.Globalization;
using DeckLife.Diagnostics;

namespace DeckLife.Fitting;

/// <summary>Sets a fit with constant errors beside the one with errors in proportion to the content.</summary>
/// <remarks>
/// Each weighting holds under its own kind of noise only; the limits over the kinds of error hold under either, at the price of width.
/// Checked by reference-checks/studies/profile-coverage.md.
/// </remarks>
internal static class WeightComparison
{
    // Judgement, no publication: below this ratio of contents the two weightings hardly differ; limits a quarter wider are worth a word;
    // a likelihood ratio under 20 is weak evidence.
    private const double LargeRatio = 4;
    private const double Wider = 1.25;
    private const double Telling = 20;

    /// <summary>Adds the other fit, and a flag where it matters.</summary>
    public static ProfileFit Add(ProfileFit fit, ProfileFit other)
    {
        if (fit.Status == FitStatus.Refused || other.Status == FitStatus.Refused)
        {
            return fit;
        }

        var compared = fit with { OtherWeights = other };
        if (fit.Options.Limits == LimitMethod.Bootstrap)
        {
            return Flagged(
                compared,
                DiagnosticCatalogue.BootstrapOfConstantErrors.With(
                    Text(other.SurfaceChloride!, "kg/m3"),
                    Text(other.DiffusionCoefficient!, "mm2/yr")
                )
            );
        }

        var detected = fit.Slices.Where(s => !s.IsNonDetect).Select(s => s.Measured).ToArray();
        var ratio = detected.Max() / Math.Max(1e-9, detected.Min());
        if (
            ratio < LargeRatio
            || !(Widened(fit.SurfaceChloride!) || Widened(fit.DiffusionCoefficient!))
        )
        {
            return compared;
        }

        return Flagged(
            compared,
            DiagnosticCatalogue.WeightsMatter.With(
                ratio,
                Known(fit.SurfaceChloride!, "kg/m3"),
                Text(other.SurfaceChloride!, "kg/m3"),
                Known(fit.DiffusionCoefficient!, "mm2/yr"),
                Text(other.DiffusionCoefficient!, "mm2/yr"),
                Evidence(fit, other)
            )
        );
    }

    private static ProfileFit Flagged(ProfileFit fit, Diagnostic flag) =>
        fit with
        {
            Flags = [.. fit.Flags, flag],
        };

    private static bool Widened(Estimate estimate)
    {
        if (
            (estimate.Lower95 is null && estimate.ConstantErrorsLower95 is not null)
            || (estimate.Upper95 is null && estimate.ConstantErrorsUpper95 is not null)
        )
        {
            return true;
        }

        double Width(double? low, double? high) =>
            (high ?? estimate.Value) - (low ?? estimate.Value);

        var own = Width(estimate.ConstantErrorsLower95, estimate.ConstantErrorsUpper95);
        return Width(estimate.Lower95, estimate.Upper95) > (Wider * own) + (1e-6 * estimate.Value);
    }

    private static MessageTemplate Known(Estimate estimate, string unit) =>
        new(
            "{0:G4} " + unit + " ({1})",
            estimate.Value,
            Text((estimate.ConstantErrorsLower95, estimate.ConstantErrorsUpper95), unit)
        );

    private static MessageTemplate Text(Estimate estimate, string unit) =>
        new(
            "{0:G4} " + unit + " ({1})",
            estimate.Value,
            Text((estimate.Lower95, estimate.Upper95), unit)
        );

    private static MessageTemplate Text((double? Low, double? High) limits, string unit) =>
        limits switch
        {
            (null, null) => new("no limits"),
            ({ } low, null) => new("{0:G4} " + unit + " to no limit", low),
            (null, { } high) => new("no limit to {0:G4} " + unit, high),
            ({ } low, { } high) => new("{0:G4} to {1:G4} " + unit, low, high),
        };

    // Ratio of the greatest likelihoods of the two normal laws: the weighted sums of squares over their scales are alike, the scales are left.
    private static string Evidence(ProfileFit fit, ProfileFit other)
    {
        var log =
            fit.Slices.Sum(s => Math.Log(s.StandardDeviation))
            - other.Slices.Sum(s => Math.Log(s.StandardDeviation));
        if (
            !double.IsFinite(log)
            || fit.Options.Law != ErrorLaw.Normal
            || fit.DegreesOfFreedom != other.DegreesOfFreedom
            || fit.Slices.Any(s => s.IsNonDetect)
        )
        {
            return "The slices were not asked which errors they favour.";
        }

        var times = Math.Exp(Math.Abs(log));
        return string.Create(
            CultureInfo.InvariantCulture,
            $"The {fit.Slices.Length} slices make {(log > 0 ? "proportional" : "constant")} errors {times:G3} times as likely as the other{(times < Telling ? ", too little to tell" : string.Empty)}."
        );
    }
}
