using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Surveys;

namespace DeckLife.Cli.Fitting;

/// <summary>The overlay that a deck wears, and from where the depths of its cores count.</summary>
/// <param name="Overlay">The overlay.</param>
/// <param name="DepthsFrom">Surface that the depths count from.</param>
/// <param name="YearsBefore">Time from the first salt to the placing of the overlay [yr], at least 0.</param>
internal sealed record FitOverlay(
    ExistingOverlay Overlay,
    MeasuringSurface DepthsFrom,
    double YearsBefore
)
{
    /// <summary>Of a deck; absent where it wears none.</summary>
    public static FitOverlay? Of(Deck deck) =>
        deck.ExistingOverlay is { } overlay
            ? new FitOverlay(
                overlay,
                deck.ChlorideDepthsFrom,
                Math.Max(0, deck.ExposureAge.Years - overlay.AgeAtSurvey.Years)
            )
            : null;

    /// <summary>Whether the cores are fitted as two layers.</summary>
    public bool IsTwoLayers => DepthsFrom == MeasuringSurface.PresentSurface;

    /// <summary>What to say of cores that are fitted as one layer from the old concrete down.</summary>
    public Diagnostic OneLayer =>
        DiagnosticCatalogue.OverlaidOneLayer.With(
            Overlay.Thickness.Millimetres,
            Overlay.AgeAtSurvey.Years
        );

    /// <summary>Fits one core as two layers: its exposure counts from the overlay's placing.</summary>
    public OverlaidProfileFit Fit(CoreProfile core, ProfileFitOptions options)
    {
        var years = core.ExposureAge.Years - YearsBefore;
        if (!(years > 0))
        {
            var refusal = DiagnosticCatalogue.OverlaidCoreOlder.With(
                core.ExposureAge.Years,
                YearsBefore
            );
            return new OverlaidProfileFit
            {
                Profile = core,
                OverlayThickness = Overlay.Thickness,
                Status = FitStatus.Refused,
                Points = core.Slices.Length,
                Reason = refusal.Text,
                Flags = [refusal],
            };
        }

        return OverlaidProfileFitter.Fit(
            core with
            {
                ExposureAge = Age.FromYears(years),
            },
            Overlay.Thickness,
            options,
            new OldDeckSalt(
                Age.FromYears(YearsBefore),
                Overlay.RemovedBefore ?? Depth.FromMillimetres(0)
            )
        );
    }
}
