using System.Collections.Immutable;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>The variance shares of one input, or of a group of inputs taken together.</summary>
/// <param name="Inputs">Numbers of the inputs, from 0.</param>
/// <param name="FirstOrder">What the group explains by itself.</param>
/// <param name="Total">What is left when all others are known: with every interaction that the group takes part in.</param>
public sealed record SobolGroupResult(
    ImmutableArray<int> Inputs,
    SobolIndex FirstOrder,
    SobolIndex Total
);
