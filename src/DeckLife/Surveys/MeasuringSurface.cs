namespace DeckLife.Surveys;

/// <summary>The surface from which depths or covers count.</summary>
public enum MeasuringSurface
{
    /// <summary>The surface of the deck at the survey, that of an existing overlay included.</summary>
    PresentSurface,

    /// <summary>The concrete of the deck under an existing overlay.</summary>
    DeckConcrete,
}
