using System.Collections.Immutable;

namespace DeckLife.Numerics.Reliability;

/// <summary>The design points found from many starts.</summary>
public sealed record DesignPointSet
{
    /// <summary>Converged points, each once, the nearest to the origin (least |β|) first; empty where no search converged.</summary>
    public required ImmutableArray<DesignPoint> Points { get; init; }

    /// <summary>The search from the origin, however it ended.</summary>
    public required DesignPoint FromOrigin { get; init; }

    /// <summary>Number of searches.</summary>
    public required int Searches { get; init; }
}
