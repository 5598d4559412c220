using System.Collections.Immutable;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>One-at-a-time swings of one output.</summary>
public sealed record SwingResult
{
    /// <summary>The output with all inputs at their medians.</summary>
    public required double AtMedians { get; init; }

    /// <summary>Whether no input changes the output.</summary>
    public required bool HasNoVariance { get; init; }

    /// <summary>The swings, the widest first; equal ones in the inputs' order.</summary>
    public required ImmutableArray<Swing> Swings { get; init; }
}
