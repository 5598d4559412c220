using System.Globalization;
using DeckLife.Diagnostics;

namespace DeckLife.Fitting;

/// <summary>Sets a fit with constant errors beside the one with errors in proportion to the content.</summary>
/// <remarks>
/// Each weighting holds under its own kind of noise only; the span of both sets of limits holds under either, at the price of width.
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
        var detected = fit.Slices.Where(s => !s.IsNonDetect).Select(s => s.Measured).ToArray();
        var ratio = detected.Max() / Math.Max(1e-9, detected.Min());
        var surface = Span(fit.SurfaceChloride!, other.SurfaceChloride!);
        var diffusion = Span(fit.DiffusionCoefficient!, other.DiffusionCoefficient!);
        if (
            ratio < LargeRatio
            || !(
                Widens(fit.SurfaceChloride!, surface)
                || Widens(fit.DiffusionCoefficient!, diffusion)
            )
        )
        {
            return compared;
        }

        return compared with
        {
            Flags =
            [
                .. fit.Flags,
                DiagnosticCatalogue.WeightsMatter.With(
                    ratio,
                    Text(fit.SurfaceChloride!, "kg/m3"),
                    Text(other.SurfaceChloride!, "kg/m3"),
                    Text(surface, "kg/m3"),
                    Text(fit.DiffusionCoefficient!, "mm2/yr"),
                    Text(other.DiffusionCoefficient!, "mm2/yr"),
                    Text(diffusion, "mm2/yr"),
                    Evidence(fit, other)
                ),
            ],
        };
    }

    /// <summary>The limits that hold under either kind of noise; a limit that one of the fits lacks is absent.</summary>
    public static (double? Low, double? High) Span(Estimate one, Estimate other) =>
        (
            one.Lower95 is { } a && other.Lower95 is { } b ? Math.Min(a, b) : null,
            one.Upper95 is { } c && other.Upper95 is { } d ? Math.Max(c, d) : null
        );

    private static bool Widens(Estimate own, (double? Low, double? High) span)
    {
        if (
            (own.Lower95 is not null && span.Low is null)
            || (own.Upper95 is not null && span.High is null)
        )
        {
            return true;
        }

        var low = own.Lower95 is { } l ? own.Value - l : 0;
        var high = own.Upper95 is { } h ? h - own.Value : 0;
        var spanLow = span.Low is { } sl ? own.Value - sl : 0;
        var spanHigh = span.High is { } sh ? sh - own.Value : 0;
        return spanLow + spanHigh > (Wider * (low + high)) + (1e-6 * own.Value);
    }

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
