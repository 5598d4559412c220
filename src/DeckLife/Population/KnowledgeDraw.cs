using System.Collections.Immutable;
using DeckLife.Numerics.Sampling;

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
)
{
    /// <summary>The projection's seed, for what is drawn by name.</summary>
    public ulong Seed { get; init; }

    /// <summary>A number between 0 and 1 for the own life of something placed: the same for the same thing in every strategy.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="materialIndex">Its index among the deck's materials; −1 for a protection.</param>
    /// <param name="occurrence">How often the strategy has placed it before.</param>
    public double LifeUniform(string name, int materialIndex, int occurrence)
    {
        if (Index < 0)
        {
            return 0.5;
        }

        if (materialIndex >= 0 && occurrence == 0)
        {
            return MaterialLifeUniforms[materialIndex];
        }

        var stream = new RandomStream(Seed, "own life of " + name, (ulong)Index);
        for (var before = 0; before < occurrence; before++)
        {
            _ = stream.NextUniform();
        }

        return stream.NextUniform();
    }
}
