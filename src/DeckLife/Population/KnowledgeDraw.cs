using System.Collections.Immutable;

namespace DeckLife.Population;

/// <summary>One draw of everything that is not known about a deck and its future materials.</summary>
/// <param name="Index">Index of the draw.</param>
/// <param name="Population">How the deck's points differ, in this draw.</param>
/// <param name="Discrepancy">What the model's form gets wrong, and where chance has put this finite deck: shift of the normal score of every share.</param>
/// <param name="MaterialScores">Standard score of each overlay material's diffusion coefficient, in the deck's order.</param>
/// <param name="MaterialLifeUniforms">A number between 0 and 1 for each overlay material's own life, in the deck's order.</param>
internal sealed record KnowledgeDraw(
    int Index,
    DeckPopulation Population,
    double Discrepancy,
    ImmutableArray<double> MaterialScores,
    ImmutableArray<double> MaterialLifeUniforms
);
