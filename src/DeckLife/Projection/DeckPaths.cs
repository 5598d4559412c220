using System.Collections.Immutable;
using DeckLife.Diagnostics;

namespace DeckLife.Projection;

/// <summary>A deck under each of its strategies, draw by draw.</summary>
/// <param name="Strategies">One a strategy that was not refused, in the deck's order.</param>
/// <param name="Refused">Strategies that were refused, with the reason.</param>
/// <param name="Flags">What a reviewer should know about all of them.</param>
public sealed record DeckPaths(
    ImmutableArray<StrategyPaths> Strategies,
    ImmutableArray<RefusedStrategy> Refused,
    ImmutableArray<Diagnostic> Flags
);
