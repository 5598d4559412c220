using System.Collections.Immutable;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>Variance-based sensitivity of one output.</summary>
public sealed record SobolResult
{
    /// <summary>Mean of the output.</summary>
    public required double Mean { get; init; }

    /// <summary>Variance of the output.</summary>
    public required double Variance { get; init; }

    /// <summary>Whether the output has no variance: no share exists then, and <see cref="Groups"/> is empty.</summary>
    public required bool HasNoVariance { get; init; }

    /// <summary>One result a group, in the order of the plan's groups.</summary>
    public required ImmutableArray<SobolGroupResult> Groups { get; init; }

    /// <summary>Estimates from the first quarter, half and all of the points.</summary>
    public required ImmutableArray<SobolConvergenceRow> Convergence { get; init; }
}
