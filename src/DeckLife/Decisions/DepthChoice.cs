using System.Collections.Immutable;

namespace DeckLife.Decisions;

/// <summary>The best removal and overlay among the cases that keep the limits.</summary>
public sealed record DepthChoice
{
    /// <summary>The best case.</summary>
    public required DepthMapCell Best { get; init; }

    /// <summary>By what it is the best.</summary>
    public required string Criterion { get; init; }

    /// <summary>Other cases that the draws can't tell from the best: their mean difference is within two of its standard errors.</summary>
    public ImmutableArray<DepthMapCell> Indistinguishable { get; init; } = [];

    /// <summary>What one more year costs; absent without prices, or where no dearer case lasts longer.</summary>
    public YearPrice? OneMoreYear { get; init; }
}
