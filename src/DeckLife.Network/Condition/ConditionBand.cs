using DeckLife.Projection;

namespace DeckLife.Network.Condition;

/// <summary>A share of the network with its band, under the two ends of how decks may err together.</summary>
/// <param name="Independent">Each deck errs by itself: errors average out over the network.</param>
/// <param name="Together">All decks err the same way at once: nothing averages out. The truth lies between the two.</param>
public sealed record ConditionBand(PercentileBand Independent, PercentileBand Together);
