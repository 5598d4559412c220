using System.Collections.Immutable;
using DeckLife.Numerics.DesignOfExperiments;
using DeckLife.Numerics.Sensitivity;

namespace DeckLife.Studies;

/// <summary>A method that a study applies to all its outputs.</summary>
public abstract record StudyMethod
{
    /// <summary>Its name in study files and tables.</summary>
    public abstract string Name { get; }
}

/// <summary>Plain Monte Carlo.</summary>
/// <param name="Draws">Number of draws.</param>
public sealed record MonteCarloMethod(long Draws) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "monteCarlo";
}

/// <summary>First-order and total shares of variance.</summary>
/// <param name="Points">Number of points.</param>
/// <param name="Source">Where the points come from.</param>
/// <param name="Bootstrap">Number of bootstrap samples.</param>
/// <param name="Groups">Groups of quantities taken together; empty: each by itself.</param>
public sealed record SobolMethod(
    int Points,
    PointSource Source,
    int Bootstrap,
    ImmutableArray<ImmutableArray<SectionVariable>> Groups
) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "sobol";
}

/// <summary>Shapley effects.</summary>
/// <param name="Points">Number of points.</param>
/// <param name="Source">Where the points come from.</param>
/// <param name="Bootstrap">Number of bootstrap samples.</param>
public sealed record ShapleyMethod(int Points, PointSource Source, int Bootstrap) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "shapley";
}

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

/// <summary>One-at-a-time swings.</summary>
/// <param name="Low">Probability of the low quantile.</param>
/// <param name="High">Probability of the high quantile.</param>
public sealed record SwingMethod(double Low, double High) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "swings";
}

/// <summary>FORM, SORM and importance sampling of each <see cref="StudyOutputKind.InitiatedBy"/>.</summary>
/// <param name="Draws">Number of draws of the importance sampling.</param>
public sealed record ReliabilityMethod(int Draws) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "reliability";
}
