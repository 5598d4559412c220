namespace DeckLife.Decisions;

/// <summary>What could be learned before deciding.</summary>
public enum InformationKind
{
    /// <summary>More cores, taken at random over the deck.</summary>
    Cores,

    /// <summary>More cover readings, spread over the deck.</summary>
    CoverReadings,

    /// <summary>Sounding the deck once more; the count is the number of independent places.</summary>
    Sounding,
}
