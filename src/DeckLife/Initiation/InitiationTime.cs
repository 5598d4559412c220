namespace DeckLife.Initiation;

/// <summary>When the threshold is first reached at the bar: <see cref="Reached"/>, <see cref="NotWithin"/> or <see cref="AlreadyAt"/>. Never infinity or NaN.</summary>
public abstract record InitiationTime
{
    private protected InitiationTime() { }
}
