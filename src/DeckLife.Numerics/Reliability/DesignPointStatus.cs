namespace DeckLife.Numerics.Reliability;

/// <summary>How a search for a design point ended.</summary>
public enum DesignPointStatus
{
    /// <summary>Found: on the limit state, and its direction is the gradient's.</summary>
    Converged,

    /// <summary>The most iterations allowed were used.</summary>
    IterationLimit,

    /// <summary>The limit state does not change with any variable here: there is no direction to go.</summary>
    NoGradient,

    /// <summary>No step along the direction brought the search nearer.</summary>
    NoProgress,

    /// <summary>The limit state gave no finite number.</summary>
    NotFinite,
}
