using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>How a deck is projected, and what is wanted of it beside its strategies' curves.</summary>
internal sealed record ProjectionRequest
{
    /// <summary>The fit of each core, handed on to the result.</summary>
    public ImmutableArray<ProfileFit> Cores { get; init; } = [];

    /// <summary>Solves the sections; absent: <see cref="DeckProjector.SolverFor"/>.</summary>
    public ISectionSolver? Solver { get; init; }

    /// <summary>Told the share that is done, 0 to 1; absent: nobody.</summary>
    public IProgress<double>? Progress { get; init; }

    /// <summary>Whether the map, the record of what the surveys changed and the noise of points and solver are wanted too.</summary>
    public bool KeepsRecord { get; init; } = true;

    /// <summary>How many draws are weighed by the surveys.</summary>
    public LearningEffort Effort { get; init; } = LearningEffort.Full;

    /// <summary>Receives the plans and the draws of each; absent: nobody.</summary>
    public Action<StrategyPlan[], StrategyDraw[][]>? Receive { get; init; }
}
