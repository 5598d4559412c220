using DeckLife.Surveys;

namespace DeckLife.Projection;

/// <summary>The section that the fitted profiles describe, an overlay of the survey included or not.</summary>
/// <param name="ThicknessMm">Thickness from the surface that the cores' depths count from [mm].</param>
/// <param name="AboveMm">Thickness of an overlay above that surface [mm].</param>
/// <param name="CoverShiftMm">What is added to the covers of the survey so that they count from the same surface [mm].</param>
internal readonly record struct SurveyedSection(
    double ThicknessMm,
    double AboveMm,
    double CoverShiftMm
)
{
    /// <summary>The section of a deck.</summary>
    /// <param name="deck">The deck.</param>
    public static SurveyedSection Of(Deck deck)
    {
        var slab = deck.Thickness.Millimetres;
        if (deck.ExistingOverlay is not { } overlay)
        {
            return new(slab, 0, 0);
        }

        var worn = overlay.Thickness.Millimetres;
        var rest = slab - (overlay.RemovedBefore?.Millimetres ?? 0);
        var coversWithin = deck.CoversFrom == MeasuringSurface.DeckConcrete;
        return deck.ChlorideDepthsFrom == MeasuringSurface.PresentSurface
            ? new(rest + worn, 0, coversWithin ? worn : 0)
            : new(rest, worn, coversWithin ? 0 : -worn);
    }
}
