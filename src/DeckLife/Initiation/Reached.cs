using DeckLife.Quantities;

namespace DeckLife.Initiation;

/// <summary>The threshold is first reached at an age.</summary>
/// <param name="Age">When, on the time of the exposure that was asked.</param>
public sealed record Reached(Age Age) : InitiationTime;
