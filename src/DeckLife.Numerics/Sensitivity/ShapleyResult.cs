using System.Collections.Immutable;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>Shapley effects: shares of the variance that are never negative in truth and add up to 1, for dependent inputs too.</summary>
public sealed record ShapleyResult
{
    /// <summary>Variance of the output.</summary>
    public required double Variance { get; init; }

    /// <summary>Whether the output has no variance; no effect exists then.</summary>
    public required bool HasNoVariance { get; init; }

    /// <summary>One effect an input, in the inputs' order.</summary>
    public required ImmutableArray<SobolIndex> Effects { get; init; }
}
