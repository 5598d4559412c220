using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What one strategy does to the deck.</summary>
public sealed record StrategyProjection
{
    /// <summary>The strategy.</summary>
    public required Strategy Strategy { get; init; }

    /// <summary>When the deck reaches its end criterion.</summary>
    public required ServiceLife ServiceLife { get; init; }

    /// <summary>Condition against time, from the survey on.</summary>
    public required ImmutableArray<CurvePoint> Curve { get; init; }

    /// <summary>Cost; absent when the deck has no prices.</summary>
    public StrategyCost? Cost { get; init; }

    /// <summary>Probability that this strategy is the cheapest; absent without prices.</summary>
    public double? CheapestProbability { get; init; }

    /// <summary>Median depth of old concrete taken off, by intervention [mm].</summary>
    public ImmutableArray<double> MedianRemovalDepthMm { get; init; } = [];

    /// <summary>What a reviewer should know about this strategy.</summary>
    public ImmutableArray<Diagnostic> Flags { get; init; } = [];
}
