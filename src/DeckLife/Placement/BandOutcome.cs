namespace DeckLife.Placement;

/// <summary>Where an estimate's whole band lies against a limit.</summary>
public enum BandOutcome
{
    /// <summary>The whole band lies below the limit.</summary>
    Below,

    /// <summary>The limit lies within the band: the estimate does not decide.</summary>
    Straddles,

    /// <summary>The whole band lies above the limit.</summary>
    Above,
}
