using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Decisions;

/// <summary>What a deck says about the search for the best removal depth; what is absent is chosen by <see cref="DepthMapPlan.For"/>.</summary>
public sealed record DepthSearch
{
    /// <summary>When the intervention takes place, from the survey.</summary>
    public Age? At { get; init; }

    /// <summary>Depths of removal to try, rising; empty: chosen.</summary>
    public ImmutableArray<Depth> RemovalDepths { get; init; } = [];

    /// <summary>Thicknesses of overlay to try, rising; empty: chosen.</summary>
    public ImmutableArray<Depth> Thicknesses { get; init; } = [];

    /// <summary>Limits that the answer must keep.</summary>
    public DepthLimits Limits { get; init; } = new();
}
