using DeckLife.Numerics.Sensitivity;

namespace DeckLife.Studies;

/// <summary>Elementary effects.</summary>
/// <param name="Design">Trajectories or radial.</param>
/// <param name="Repetitions">Number of trajectories or stars.</param>
/// <param name="Levels">Levels of the grid of trajectories.</param>
/// <param name="EdgeProbability">Probability left out at each end.</param>
public sealed record MorrisMethod(
    MorrisDesign Design,
    int Repetitions,
    int Levels,
    double EdgeProbability
) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "morris";
}
