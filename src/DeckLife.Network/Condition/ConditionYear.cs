using System.Collections.Immutable;

namespace DeckLife.Network.Condition;

/// <summary>The condition of the network in one year.</summary>
/// <param name="Year">Calendar year; the state before that year's work.</param>
/// <param name="Damaged">Share of the network's area damaged.</param>
/// <param name="AreaByClass">Share of the network's area on decks of each condition class, the best class first.</param>
/// <param name="DecksByClass">Number of decks in each condition class.</param>
public sealed record ConditionYear(
    int Year,
    ConditionBand Damaged,
    ImmutableArray<ConditionBand> AreaByClass,
    ImmutableArray<ConditionBand> DecksByClass
);
