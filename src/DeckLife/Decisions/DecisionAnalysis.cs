using System.Collections.Immutable;
using DeckLife.Projection;

namespace DeckLife.Decisions;

/// <summary>How firm a decision is: what decides between the strategies, what knowing more would be worth, what the bands are made of.</summary>
public sealed record DecisionAnalysis
{
    /// <summary>Which inputs decide between the two cheapest strategies; absent where strategies are not ranked.</summary>
    public RankDrivers? Drivers { get; init; }

    /// <summary>What it is worth to know more before deciding; absent where strategies are not ranked.</summary>
    public ValueOfInformation? Information { get; init; }

    /// <summary>Waiting and looking again against deciding now; empty where it was not asked for.</summary>
    public ImmutableArray<SequentialDecision> Waits { get; init; } = [];

    /// <summary>What each headline number's band is made of.</summary>
    public ImmutableArray<ErrorBudget> Budgets { get; init; } = [];

    /// <summary>The strategies under other forms of the model; absent where that was not asked for.</summary>
    public ModelEnsemble? Models { get; init; }

    /// <summary>Makes it from a projection's draws.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="waitYears">Whole years after which a re-survey could be awaited; each costs a coarse projection of its own.</param>
    /// <param name="cancellation">Ends it early.</param>
    public static DecisionAnalysis Of(
        DeckProjection projection,
        ImmutableArray<int> waitYears = default,
        CancellationToken cancellation = default
    ) =>
        new()
        {
            Drivers = RankDrivers.Of(projection),
            Information = ValueOfInformation.Of(projection, cancellation: cancellation),
            Waits = waitYears.IsDefaultOrEmpty
                ? []
                : SequentialDecision.Of(projection, waitYears, cancellation),
            Budgets = ErrorBudget.Of(projection),
        };
}
