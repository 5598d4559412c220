using System.Collections.Immutable;
using DeckLife.Network.Condition;

namespace DeckLife.Network.Results;

/// <summary>A program of work with what it costs and what becomes of the network under it.</summary>
/// <param name="Name">Which program.</param>
/// <param name="SpentByYear">Expected money spent in each year of the program.</param>
/// <param name="ClosuresByYear">Decks closed for work in each year of the program.</param>
/// <param name="ValueM2Yr">Weighted damaged area avoided over the years looked at [m²·yr].</param>
/// <param name="Condition">The network year by year; empty where no deck was projected.</param>
public sealed record NetworkPlan(
    string Name,
    ImmutableArray<long> SpentByYear,
    ImmutableArray<int> ClosuresByYear,
    double ValueM2Yr,
    ImmutableArray<ConditionYear> Condition
);
