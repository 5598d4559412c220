namespace DeckLife.Fitting;

/// <summary>How the background content is treated in a fit.</summary>
public enum BackgroundTreatment
{
    /// <summary>Estimated, bounded below by 0.</summary>
    Fitted,

    /// <summary>Held at a given value.</summary>
    Fixed,
}
