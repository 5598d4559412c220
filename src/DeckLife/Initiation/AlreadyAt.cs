using DeckLife.Quantities;

namespace DeckLife.Initiation;

/// <summary>The content is at or above the threshold from the start.</summary>
/// <param name="Start">The start.</param>
public sealed record AlreadyAt(Age Start) : InitiationTime;
