using System.Collections.Immutable;

namespace DeckLife.Decisions;

/// <summary>The draws behind a projection: what was drawn, and what every strategy led to. All strategies share the draws.</summary>
public sealed record ProjectionDraws
{
    /// <summary>Index of each draw; the same index is the same draw, taken more than once where the surveys favour it.</summary>
    public required ImmutableArray<int> Indices { get; init; }

    /// <summary>What is not known; things that are the same in every draw are left out.</summary>
    public required ImmutableArray<DrawColumn> Inputs { get; init; }

    /// <summary>What each strategy led to, in the projection's order.</summary>
    public required ImmutableArray<StrategyOutcomes> Strategies { get; init; }

    /// <summary>The draws themselves.</summary>
    internal ImmutableArray<Population.KnowledgeDraw> Knowledge { get; init; } = [];

    /// <summary>Number of draws.</summary>
    public int Count => Indices.Length;

    /// <summary>The outcomes of a strategy; nothing where it was refused.</summary>
    /// <param name="name">The strategy's name.</param>
    public StrategyOutcomes? Of(string name) =>
        Strategies.FirstOrDefault(s => string.Equals(s.Name, name, StringComparison.Ordinal));
}
