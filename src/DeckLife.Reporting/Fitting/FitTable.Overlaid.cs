using System.Globalization;
using System.Text;
using DeckLife.Fitting;

namespace DeckLife.Reporting.Fitting;

public static partial class FitTable
{
    /// <summary>Writes the two-layer fits of a deck that wears an overlay.</summary>
    /// <param name="cores">The cores, in the order of the file.</param>
    /// <param name="deckReason">Why there is no deck fit.</param>
    /// <param name="units">The units of the input.</param>
    public static string Write(
        IReadOnlyList<OverlaidProfileFit> cores,
        string deckReason,
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

        text.Append("deck: not pooled. ").Append(deckReason).Append('\n');
        return text.ToString();
    }

    private static void WriteCore(StringBuilder text, OverlaidProfileFit fit, FitUnits units)
    {
        text.Append(
            CultureInfo.InvariantCulture,
            $"core {fit.Profile.Core}: {Name(fit.Status)}, {fit.Points} slices through {fit.OverlayThickness.Millimetres:0.#} mm of overlay into the deck, {fit.YearsBeforeOverlay + fit.Profile.ExposureAge.Years:0.###} yr{(fit.Status == FitStatus.Refused ? string.Empty : FormattableString.Invariant($", the last {fit.Profile.ExposureAge.Years:0.##} under the overlay"))}\n"
        );
        if (fit.Status != FitStatus.Refused)
        {
            var (content, factor) = (units.Content, units.ContentFactor);
            Line(text, "Cs", fit.SurfaceChloride!, content, factor, "kg/m3");
            Line(
                text,
                "D of the overlay",
                fit.OverlayDiffusion!,
                units.Diffusion,
                units.DiffusionFactor,
                "mm2/yr"
            );
            Line(
                text,
                "D of the deck   ",
                fit.DeckDiffusion!,
                units.Diffusion,
                units.DiffusionFactor,
                "mm2/yr"
            );
            Line(text, "C0", fit.Background!, content, factor, "kg/m3");
            if (fit.OldSurfaceChloride is { } old)
            {
                Line(text, "Cs before the overlay", old, content, factor, "kg/m3");
            }

            text.Append(
                CultureInfo.InvariantCulture,
                $"  residual s.d. {fit.ResidualStandardDeviation / factor:G3} {content} on {fit.DegreesOfFreedom} {(fit.DegreesOfFreedom == 1 ? "degree" : "degrees")} of freedom\n"
            );
        }

        if (fit.Reason is { } reason)
        {
            var codes = fit.Flags.Where(f => IsPartOf(f, reason)).Select(f => f.Code).Distinct();
            var known = string.Join(", ", codes);
            text.Append("  because: ").Append(reason);
            text.Append(known.Length > 0 ? $" ({known})\n" : "\n");
        }

        foreach (var flag in fit.Flags.Where(f => !IsPartOf(f, fit.Reason)))
        {
            text.Append(CultureInfo.InvariantCulture, $"  {flag.Code} {flag.Text}\n");
        }

        text.Append('\n');
    }
}
