using System.Collections.Immutable;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>Elementary effects of all inputs on one output.</summary>
public sealed record MorrisResult
{
    /// <summary>Whether the output did not change at all.</summary>
    public required bool HasNoVariance { get; init; }

    /// <summary>One result an input, in the inputs' order; the effects are changes of the output over the whole range of v, that is from probability e to 1 - e of the input (see <see cref="MorrisPlan"/>).</summary>
    public required ImmutableArray<ElementaryEffect> Inputs { get; init; }
}
