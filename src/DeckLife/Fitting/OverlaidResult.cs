using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Puts an overlaid fit into numbers and words.</summary>
internal static class OverlaidResult
{
    /// <summary>Composes the result of a fit that was not refused.</summary>
    /// <param name="draft">The core.</param>
    /// <param name="slices">Its slices by depth.</param>
    /// <param name="limits">The optimum and its limits.</param>
    /// <param name="held">The background where it is held [kg/m³].</param>
    /// <param name="oldSalt">The deck's years before the overlay, where told.</param>
    /// <param name="oldFitted">Whether their salt was fitted.</param>
    public static OverlaidProfileFit Compose(
        OverlaidProfileFit draft,
        ChlorideSlice[] slices,
        OverlaidLimits limits,
        double? held,
        OldDeckSalt? oldSalt,
        bool oldFitted
    )
    {
        var point = limits.Point;
        var backgroundAtBound = held is null && point.Background <= 0;
        var oldAtBound = oldFitted && point.OldExcess <= 0;
        var errors = limits.Errors(oldFitted && !oldAtBound, held is null && !backgroundAtBound);
        var flags = new List<Diagnostic>();
        var reasons = new List<string>();
        if (draft.Profile.OnCrack)
        {
            flags.Add(DiagnosticCatalogue.CoreOnCrack.With());
        }

        flags.Add(
            oldFitted
                ? DiagnosticCatalogue.OverlaidOldSalt.With(
                    oldSalt!.Exposure.Years,
                    oldSalt.Removed.Millimetres,
                    oldAtBound
                        ? "came out at 0: the slices show none"
                        : "is fitted by the old surface content"
                )
                : DiagnosticCatalogue.OverlaidCleanDeck.With()
        );
        var overlayD = Diffusion(limits, "D of the overlay", true, errors, flags, reasons);
        var deckD = Diffusion(limits, "D of the deck", false, errors, flags, reasons);
        if (backgroundAtBound)
        {
            reasons.Add("The background is at its bound 0.");
        }

        return draft with
        {
            Status = reasons.Count > 0 ? FitStatus.Limited : FitStatus.Fitted,
            Reason = reasons.Count > 0 ? string.Join(" ", reasons) : null,
            SurfaceChloride = Plain(point.Background + point.Excess, errors?[2], limits),
            OverlayDiffusion = overlayD,
            DeckDiffusion = deckD,
            OldSurfaceChloride =
                !oldFitted ? null
                : oldAtBound
                    ? new Estimate(point.Background)
                    {
                        IsAtBound = true,
                        MissingReason = "at its bound, the background: no standard error",
                    }
                : Plain(point.Background + point.OldExcess, errors?[3], limits),
            Background =
                held is not null
                    ? new Estimate(point.Background)
                    {
                        IsFixed = true,
                        MissingReason = "held, not estimated",
                    }
                : backgroundAtBound
                    ? new Estimate(0)
                    {
                        IsAtBound = true,
                        MissingReason = "at its bound 0: no standard error",
                    }
                : Plain(point.Background, errors?[4], limits),
            ResidualStandardDeviation = limits.Scale,
            DegreesOfFreedom = limits.DegreesOfFreedom,
            Slices =
            [
                .. slices.Select(
                    (s, i) =>
                        new FittedSlice(
                            s.Row,
                            s.Top.Millimetres,
                            s.Bottom.Millimetres,
                            s.Content.KilogramsPerCubicMetre,
                            false,
                            limits.Contents[i],
                            limits.Scale,
                            1
                        )
                ),
            ],
            Flags = [.. flags],
        };
    }

    private static Estimate Diffusion(
        OverlaidLimits limits,
        string name,
        bool overlay,
        double[]? errors,
        List<Diagnostic> flags,
        List<string> reasons
    )
    {
        var d = Math.Exp(overlay ? limits.At.Overlay : limits.At.Deck);
        var lower = limits.Of(overlay, upper: false);
        var upper = limits.Of(overlay, upper: true);
        foreach (var (side, value) in new[] { ("lower", lower), ("upper", upper) })
        {
            if (value is null)
            {
                var flag = DiagnosticCatalogue.OneSidedLimit.With(
                    side,
                    name,
                    limits.Interval.Low,
                    limits.Interval.High
                );
                flags.Add(flag);
                reasons.Add(flag.Text);
            }
        }

        return new Estimate(d)
        {
            StandardError = errors is { } e ? d * e[overlay ? 0 : 1] : null,
            Lower95 = lower,
            Upper95 = upper,
            LimitMethod = string.Create(
                CultureInfo.InvariantCulture,
                $"profile likelihood, F(1, {limits.DegreesOfFreedom}) cut, constant errors"
            ),
            MissingReason =
                lower is null || upper is null
                    ? "a limit lies beyond the search interval of D"
                    : null,
        };
    }

    private static Estimate Plain(double value, double? error, OverlaidLimits limits) =>
        new(value)
        {
            StandardError = error,
            Lower95 = error is { } e ? Math.Max(0, value - (limits.Student * e)) : null,
            Upper95 = error is { } f ? value + (limits.Student * f) : null,
            LimitMethod = "plain: estimate ± t s.e., constant errors",
            MissingReason = error is null ? "the information matrix is singular" : null,
        };
}
