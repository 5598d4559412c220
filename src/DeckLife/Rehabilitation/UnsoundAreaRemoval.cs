namespace DeckLife.Rehabilitation;

/// <summary>Removal of what is damaged alone, to 3/4 in clear under the bars, patched to the old grade; the rest of the deck stays as it is.</summary>
public sealed record UnsoundAreaRemoval : RemovalRule;
