using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Numerics.LeastSquares;
using DeckLife.Profiles;
using DeckLife.Quantities;
using MathNet.Numerics.LinearAlgebra;

namespace DeckLife.Fitting;

/// <summary>Fits a core of a deck that already wears an overlay as two layers.</summary>
/// <remarks>
/// Equation: a layer over a half space of another diffusion coefficient, surface content Cs since the overlay's placement, both layers at C0
/// before (<see cref="DeckLife.Numerics.Diffusion.TwoMedia"/>); a slice is the mean over its depth, split at the interface.
/// Method: variable projection over (ln D overlay, ln D deck): grid, then Levenberg-Marquardt. Limits: profile likelihood with the F(1, n - p) cut
/// for the two D, the plain interval for Cs and C0.
/// Valid for: an overlay on concrete that held only C0 when it was placed. Salt left under the overlay is not of this form: then use the
/// transport engine with the old profile. Contents below detection are not accepted. Checked by: OverlaidProfileFitterTests.
/// </remarks>
public static class OverlaidProfileFitter
{
    private const int GridPoints = 21;

    /// <summary>Fits one core.</summary>
    /// <param name="profile">The core, from the overlay's surface down; its exposure age counts from the overlay's placement.</param>
    /// <param name="overlayThickness">Thickness of the overlay, above 0.</param>
    /// <param name="options">Choices; background and search interval are used. Absent: the defaults.</param>
    public static OverlaidProfileFit Fit(
        CoreProfile profile,
        Depth overlayThickness,
        ProfileFitOptions? options = null
    )
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(overlayThickness.Millimetres);
        options ??= new ProfileFitOptions();
        var draft = new OverlaidProfileFit
        {
            Profile = profile,
            OverlayThickness = overlayThickness,
            Status = FitStatus.Refused,
        };
        ChlorideSlice[] slices = [.. profile.Slices.OrderBy(s => s.CentreMm)];
        var held =
            options.Background == BackgroundTreatment.Fixed
                ? options.FixedBackground.KilogramsPerCubicMetre
                : (double?)null;
        if (Refusal(profile, slices, overlayThickness, held) is { } early)
        {
            return Refuse(draft, early);
        }

        var model = new OverlaidModel(
            slices,
            overlayThickness.Millimetres,
            profile.ExposureAge.Years,
            held
        );
        var (low, high) = Interval(slices, profile.ExposureAge.Years, options);
        var start = Search(model, low, high);
        var run = new LevenbergMarquardt().Minimise(model, [start.Overlay, start.Deck]);
        var (lnOverlay, lnDeck) = (run.Parameters[0], run.Parameters[1]);
        if (
            !(lnOverlay > low && lnOverlay < high && lnDeck > low && lnDeck < high)
            || run.Status != LeastSquaresStatus.Converged
        )
        {
            return Refuse(
                draft,
                DiagnosticCatalogue.OverlaidUndetermined.With(Math.Exp(low), Math.Exp(high))
            );
        }

        return Compose(draft, model, slices, (lnOverlay, lnDeck), (low, high), held);
    }

    private static Diagnostic? Refusal(
        CoreProfile profile,
        ChlorideSlice[] slices,
        Depth overlay,
        double? held
    )
    {
        if (!(profile.ExposureAge.Years > 0))
        {
            return DiagnosticCatalogue.NoExposure.With(profile.ExposureAge.Years);
        }

        var above = slices.Count(s => s.CentreMm < overlay.Millimetres);
        var free = held is null ? 4 : 3;
        if (slices.Length < free + 1 || above < 2 || slices.Length - above < 2)
        {
            return DiagnosticCatalogue.OverlaidTooFewSlices.With(
                above,
                slices.Length - above,
                free,
                free + 1
            );
        }

        return slices.Any(s => s.IsNonDetect)
            ? DiagnosticCatalogue.OverlaidNonDetects.With(slices.Count(s => s.IsNonDetect))
            : null;
    }

    private static (double Low, double High) Interval(
        ChlorideSlice[] slices,
        double years,
        ProfileFitOptions options
    )
    {
        double Ln(double length) => Math.Log(length * length / (4 * years));
        return (
            options.SearchLow is { } l
                ? Math.Log(l.SquareMillimetresPerYear)
                : Ln(0.2 * Math.Max(1e-3, slices[0].CentreMm)),
            options.SearchHigh is { } h
                ? Math.Log(h.SquareMillimetresPerYear)
                : Ln(20 * slices[^1].CentreMm)
        );
    }

    private static (double Overlay, double Deck) Search(
        OverlaidModel model,
        double low,
        double high
    )
    {
        var best = (low, low);
        var least = double.PositiveInfinity;
        for (var i = 1; i < GridPoints - 1; i++)
        {
            for (var j = 1; j < GridPoints - 1; j++)
            {
                var at = (
                    low + ((high - low) * i / (GridPoints - 1)),
                    low + ((high - low) * j / (GridPoints - 1))
                );
                var sum = model.At(at.Item1, at.Item2).Sum;
                if (sum < least)
                {
                    (best, least) = (at, sum);
                }
            }
        }

        return best;
    }

    private static OverlaidProfileFit Compose(
        OverlaidProfileFit draft,
        OverlaidModel model,
        ChlorideSlice[] slices,
        (double Overlay, double Deck) at,
        (double Low, double High) interval,
        double? held
    )
    {
        var (sum, excess, background) = model.At(at.Overlay, at.Deck);
        var atBound = held is null && background <= 0;
        var nu = slices.Length - (held is null ? 4 : 3);
        var t = LimitCut.TwoSided95(nu).Student;
        var errors = Errors(
            model.Derivatives(at.Overlay, at.Deck, excess),
            slices.Length,
            sum / nu,
            held is null && !atBound ? 4 : 3
        );
        var threshold = sum * (1 + (t * t / nu));
        var flags = new List<Diagnostic> { DiagnosticCatalogue.OverlaidCleanDeck.With() };
        var reasons = new List<string>();
        Estimate Of(string name, double ln, double? error, bool overlay)
        {
            var lower = Limit(model, at, overlay, threshold, interval, upper: false);
            var upper = Limit(model, at, overlay, threshold, interval, upper: true);
            foreach (var (side, value) in new[] { ("lower", lower), ("upper", upper) })
            {
                if (value is null)
                {
                    var flag = DiagnosticCatalogue.OneSidedLimit.With(
                        side,
                        name,
                        Math.Exp(interval.Low),
                        Math.Exp(interval.High)
                    );
                    flags.Add(flag);
                    reasons.Add(flag.Text);
                }
            }

            return new Estimate(Math.Exp(ln))
            {
                StandardError = error is { } e ? Math.Exp(ln) * e : null,
                Lower95 = lower,
                Upper95 = upper,
                LimitMethod = string.Create(
                    CultureInfo.InvariantCulture,
                    $"profile likelihood, F(1, {nu}) cut"
                ),
                MissingReason =
                    lower is null || upper is null
                        ? "a limit lies beyond the search interval of D"
                        : null,
            };
        }

        Estimate Plain(double value, double? error) =>
            new(value)
            {
                StandardError = error,
                Lower95 = error is { } e ? Math.Max(0, value - (t * e)) : null,
                Upper95 = error is { } f ? value + (t * f) : null,
                LimitMethod = "plain: estimate ± t s.e.",
                MissingReason = error is null ? "the information matrix is singular" : null,
            };

        var overlayD = Of("D of the overlay", at.Overlay, errors?[1], overlay: true);
        var deckD = Of("D of the deck", at.Deck, errors?[2], overlay: false);
        if (atBound)
        {
            reasons.Add("The background is at its bound 0.");
        }

        return draft with
        {
            Status = reasons.Count > 0 ? FitStatus.Limited : FitStatus.Fitted,
            Reason = reasons.Count > 0 ? string.Join(" ", reasons) : null,
            SurfaceChloride = Plain(background + excess, errors?[0]),
            OverlayDiffusion = overlayD,
            DeckDiffusion = deckD,
            Background =
                held is not null
                    ? new Estimate(background)
                    {
                        IsFixed = true,
                        MissingReason = "held, not estimated",
                    }
                : atBound
                    ? new Estimate(0)
                    {
                        IsAtBound = true,
                        MissingReason = "at its bound 0: no standard error",
                    }
                : Plain(background, errors?[3]),
            ResidualStandardDeviation = Math.Sqrt(sum / nu),
            DegreesOfFreedom = nu,
            Flags = [.. flags],
        };
    }

    // Walks outwards in ln D of one layer, the other following, until the sum of squares crosses the cut.
    private static double? Limit(
        OverlaidModel model,
        (double Overlay, double Deck) at,
        bool overlay,
        double threshold,
        (double Low, double High) interval,
        bool upper
    )
    {
        double Above(double x) => Follow(model, x, overlay, at, interval) - threshold;
        var inside = overlay ? at.Overlay : at.Deck;
        var insideValue = -threshold;
        for (var step = 0.05; step < 100; step *= 1.6)
        {
            var end = upper ? interval.High : interval.Low;
            var next = upper
                ? Math.Min(end, (overlay ? at.Overlay : at.Deck) + step)
                : Math.Max(end, (overlay ? at.Overlay : at.Deck) - step);
            var value = Above(next);
            if (value > 0)
            {
                return Math.Exp(BracketedZero.Find(Above, inside, next, insideValue, value, 1e-7));
            }

            if (next == end)
            {
                return null;
            }

            (inside, insideValue) = (next, Math.Min(value, -double.Epsilon));
        }

        return null;
    }

    // The least sum of squares over the other layer's ln D: a grid about where it was, then golden section.
    private static double Follow(
        OverlaidModel model,
        double x,
        bool overlay,
        (double Overlay, double Deck) at,
        (double Low, double High) interval
    )
    {
        double At(double other) => overlay ? model.At(x, other).Sum : model.At(other, x).Sum;
        var bestAt = overlay ? at.Deck : at.Overlay;
        var best = At(bestAt);
        var width = (interval.High - interval.Low) / 40;
        for (var i = 0; i <= 40; i++)
        {
            var other = interval.Low + (width * i);
            var value = At(other);
            if (value < best)
            {
                (bestAt, best) = (other, value);
            }
        }

        const double golden = 0.618033988749894848;
        var (left, right) = (bestAt - width, bestAt + width);
        var a = right - (golden * (right - left));
        var b = left + (golden * (right - left));
        var (fa, fb) = (At(a), At(b));
        while (right - left > 1e-6)
        {
            if (fa < fb)
            {
                (right, b, fb) = (b, a, fa);
                a = right - (golden * (right - left));
                fa = At(a);
            }
            else
            {
                (left, a, fa) = (a, b, fb);
                b = left + (golden * (right - left));
                fb = At(b);
            }
        }

        return Math.Min(best, Math.Min(fa, fb));
    }

    private static double[]? Errors(double[] rows, int count, double variance, int size)
    {
        var information = Matrix<double>.Build.Dense(size, size);
        for (var i = 0; i < count; i++)
        {
            for (var j = 0; j < size; j++)
            {
                for (var k = 0; k < size; k++)
                {
                    information[j, k] += rows[(4 * i) + j] * rows[(4 * i) + k];
                }
            }
        }

        var root = information.Diagonal().PointwiseSqrt();
        if (root.Any(r => !(r > 0)))
        {
            return null;
        }

        var scaled = information.PointwiseDivide(root.OuterProduct(root));
        if (scaled.Determinant() <= 1e-13)
        {
            return null;
        }

        var inverse = scaled.Inverse();
        var errors = new double[4];
        for (var j = 0; j < size; j++)
        {
            errors[j] = Math.Sqrt(variance * inverse[j, j]) / root[j];
        }

        return errors;
    }

    private static OverlaidProfileFit Refuse(OverlaidProfileFit draft, Diagnostic reason) =>
        draft with
        {
            Reason = reason.Text,
            Flags = [reason],
        };
}
