namespace DeckLife.Fitting;

/// <summary>How far the estimates of one core can be used.</summary>
public enum FitStatus
{
    /// <summary>All estimates are interior; what the user fixed stays fixed.</summary>
    Fitted,

    /// <summary>Usable, but an estimate lies at a bound, was fixed by the program, or has a one-sided limit.</summary>
    Limited,

    /// <summary>No estimate exists; the reason says why.</summary>
    Refused,
}
