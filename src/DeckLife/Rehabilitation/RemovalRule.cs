namespace DeckLife.Rehabilitation;

/// <summary>How much of the old concrete an intervention takes off.</summary>
public abstract record RemovalRule;
