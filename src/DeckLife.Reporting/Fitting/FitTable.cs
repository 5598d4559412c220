using System.Globalization;
using System.Text;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Fitting;

/// <summary>Fits as text for a terminal: one block a core, then the deck.</summary>
public static partial class FitTable
{
    /// <summary>Writes the fits.</summary>
    /// <param name="cores">The cores, in the order of the file.</param>
    /// <param name="deck">The deck, where its cores could be pooled.</param>
    /// <param name="deckReason">Why there is no deck fit, or what to know of it.</param>
    /// <param name="units">The units of the input.</param>
    public static string Write(
        IReadOnlyList<ProfileFit> cores,
        DeckFit? deck,
        string? deckReason,
        FitUnits units
    )
    {
        ArgumentNullException.ThrowIfNull(cores);
        ArgumentNullException.ThrowIfNull(units);
        var text = new StringBuilder();
        foreach (var fit in cores)
        {
            WriteCore(text, fit, units);
        }

        WriteDeck(text, deck, deckReason, units);
        return text.ToString();
    }

    private static void WriteCore(StringBuilder text, ProfileFit fit, FitUnits units)
    {
        text.Append(
            CultureInfo.InvariantCulture,
            $"core {fit.Profile.Core}: {Name(fit.Status)}, {fit.Points} slices, {fit.Profile.ExposureAge.Years:0.###} yr\n"
        );
        WriteEstimates(text, fit, units);
        if (fit.Reason is { } reason)
        {
            // With the codes, so that they can be explained.
            var codes = fit.Flags.Where(f => IsPartOf(f, reason)).Select(f => f.Code).Distinct();
            var known = string.Join(", ", codes);
            text.Append("  because: ")
                .Append(MessageHtml.Reason(reason, fit.Flags, units.Messages));
            text.Append(known.Length > 0 ? $" ({known})\n" : "\n");
        }

        foreach (var slice in fit.Excluded)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  left out: row {slice.Row}, {slice.Reason}\n"
            );
        }

        if (fit.Alternative is { } alternative)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  with them in: {Name(alternative.Status)}\n"
            );
            WriteEstimates(text, alternative, units);
        }

        foreach (var flag in fit.Flags.Where(f => !IsPartOf(f, fit.Reason)))
        {
            text.Append(CultureInfo.InvariantCulture, $"  {flag.Code} {flag.In(units.Messages)}\n");
        }

        text.Append('\n');
    }

    private static bool IsPartOf(Diagnostic flag, string? reason) =>
        reason?.Contains(flag.Text, StringComparison.Ordinal) == true;

    private static void WriteEstimates(StringBuilder text, ProfileFit fit, FitUnits units)
    {
        if (fit.Status == FitStatus.Refused)
        {
            return;
        }

        Line(text, "Cs", fit.SurfaceChloride!, units.Content, units.ContentFactor, "kg/m3");
        Line(
            text,
            "D ",
            fit.DiffusionCoefficient!,
            units.Diffusion,
            units.DiffusionFactor,
            "mm2/yr"
        );
        Line(text, "C0", fit.Background!, units.Content, units.ContentFactor, "kg/m3");
        if (fit.ResidualStandardDeviation is { } sd)
        {
            var squared = fit.RSquared is { } r2
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"; R2 {r2:F4} (says little beside the limits)"
                )
                : string.Empty;
            text.Append(
                CultureInfo.InvariantCulture,
                $"  residual s.d. {sd / units.ContentFactor:G3} {units.Content} on {fit.DegreesOfFreedom} {(fit.DegreesOfFreedom == 1 ? "degree" : "degrees")} of freedom{squared}\n"
            );
        }
    }

    private static void Line(
        StringBuilder text,
        string symbol,
        Estimate estimate,
        string unit,
        double factor,
        string canonical
    )
    {
        text.Append(
            CultureInfo.InvariantCulture,
            $"  {symbol} {estimate.Value / factor, 10:G4} {unit, -6}  {Limits(estimate, factor), -48}"
        );
        if (factor != 1)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  = {estimate.Value:G4} {canonical}{CanonicalLimits(estimate)}"
            );
        }

        while (text[^1] == ' ')
        {
            text.Length--;
        }

        text.Append('\n');
    }

    private static string Limits(Estimate estimate, double factor)
    {
        if (estimate.IsFixed)
        {
            return "held";
        }

        var limits = (estimate.Lower95, estimate.Upper95) switch
        {
            ({ } low, { } high) => string.Create(
                CultureInfo.InvariantCulture,
                $"95 % limits {low / factor:G4} to {high / factor:G4}"
            ),
            ({ } low, null) => string.Create(
                CultureInfo.InvariantCulture,
                $"95 % limit: at least {low / factor:G4}"
            ),
            (null, { } high) => string.Create(
                CultureInfo.InvariantCulture,
                $"95 % limit: at most {high / factor:G4}"
            ),
            _ => "no limits",
        };
        return estimate.StandardError is { } se
            ? string.Create(CultureInfo.InvariantCulture, $"{limits}, s.e. {se / factor:G3}")
            : limits;
    }

    private static string CanonicalLimits(Estimate estimate) =>
        estimate is { Lower95: { } low, Upper95: { } high }
            ? string.Create(CultureInfo.InvariantCulture, $" ({low:G4} to {high:G4})")
            : string.Empty;

    private static string Bare(Estimate estimate) =>
        estimate is { Lower95: { } low, Upper95: { } high }
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"{estimate.Value:G3} ({low:G3} to {high:G3})"
            )
            : estimate.Value.ToString("G3", CultureInfo.InvariantCulture);

    private static string Name(FitStatus status) => status.ToString().ToLowerInvariant();
}
