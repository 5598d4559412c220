using DeckLife.Projection;

namespace DeckLife.Network.Results;

/// <summary>What a program does with one deck.</summary>
/// <param name="Strategy">The strategy; absent: nothing is done.</param>
/// <param name="StartYear">Year of its first intervention; absent with nothing.</param>
/// <param name="Cost">Expected cost within the program.</param>
/// <param name="DamagedLastYear">Share of the deck's area damaged in the last year.</param>
public sealed record DeckChoice(
    string? Strategy,
    int? StartYear,
    long Cost,
    PercentileBand DamagedLastYear
);
