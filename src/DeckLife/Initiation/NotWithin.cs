using DeckLife.Quantities;

namespace DeckLife.Initiation;

/// <summary>The threshold is not reached up to the horizon; what happens later was not asked.</summary>
/// <param name="Horizon">The horizon.</param>
public sealed record NotWithin(Age Horizon) : InitiationTime;
