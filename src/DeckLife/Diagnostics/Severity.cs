namespace DeckLife.Diagnostics;

/// <summary>How much a diagnostic matters.</summary>
public enum Severity
{
    /// <summary>Worth knowing; nothing is wrong.</summary>
    Note,

    /// <summary>The result stands, with this reservation.</summary>
    Warning,

    /// <summary>There is no result.</summary>
    Error,
}
