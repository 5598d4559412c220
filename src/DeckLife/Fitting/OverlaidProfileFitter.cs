using DeckLife.Diagnostics;
using DeckLife.Numerics.LeastSquares;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.Fitting;

/// <summary>Fits a core of a deck that already wears an overlay as two layers.</summary>
/// <remarks>
/// Equation: a layer over a half space of another diffusion coefficient, surface content Cs since the overlay's placement, both layers at C0
/// before (<see cref="DeckLife.Numerics.Diffusion.TwoMedia"/>); a slice is the mean over its depth, split at the interface. Where the deck had
/// been salted before, the salt left under the overlay, C0 + (old surface content - C0) erfc((y + removed) / (2 sqrt(D t))) with the deck's own
/// D and the years before the overlay, spreads into both layers (<see cref="DeckLife.Numerics.Diffusion.TwoMediaSpread"/>); the old surface
/// content is then fitted too.
/// Method: variable projection over (ln D overlay, ln D deck): grid, then Levenberg-Marquardt. Limits: profile likelihood with the F(1, n - p) cut
/// for the two D, the plain interval for the contents.
/// Valid for: constant errors; one D of the deck before and after the overlay; an overlay that brought no salt above C0. Contents below detection
/// are not accepted. Checked by: OverlaidProfileFitterTests, TwoMediaSpreadTests.
/// </remarks>
public static class OverlaidProfileFitter
{
    private const int GridPoints = 21;

    /// <summary>Fits one core.</summary>
    /// <param name="profile">The core, from the overlay's surface down; its exposure age counts from the overlay's placement.</param>
    /// <param name="overlayThickness">Thickness of the overlay, above 0.</param>
    /// <param name="options">Choices; background and search interval are used. Absent: the defaults.</param>
    /// <param name="oldSalt">The deck's years of salt before the overlay; absent: the deck is taken as clean under it.</param>
    public static OverlaidProfileFit Fit(
        CoreProfile profile,
        Depth overlayThickness,
        ProfileFitOptions? options = null,
        OldDeckSalt? oldSalt = null
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
            Points = profile.Slices.Length,
            YearsBeforeOverlay = oldSalt?.Exposure.Years ?? 0,
        };
        ChlorideSlice[] slices = [.. profile.SlicesByDepth()];
        var held =
            options.Background == BackgroundTreatment.Fixed
                ? options.FixedBackground.KilogramsPerCubicMetre
                : (double?)null;
        if (Refusal(profile, slices, overlayThickness, held) is { } early)
        {
            return Refuse(draft, early);
        }

        var years = profile.ExposureAge.Years;
        var free = held is null ? 5 : 4;
        var old = oldSalt is { Exposure.Years: > 0 } && slices.Length > free ? oldSalt : null;
        var model = new OverlaidModel(
            new OverlaidShares(slices, overlayThickness.Millimetres, years, old),
            held
        );
        var (low, high) = Interval(slices, years, options);
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

        var limits = new OverlaidLimits(model, (lnOverlay, lnDeck), (low, high));
        return OverlaidResult.Compose(draft, slices, limits, held, oldSalt, old is not null);
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

    private static OverlaidProfileFit Refuse(OverlaidProfileFit draft, Diagnostic reason) =>
        draft with
        {
            Reason = reason.Text,
            Flags = [reason],
        };
}
