using System.Collections.Immutable;

namespace DeckLife.Rehabilitation;

/// <summary>A strategy with everything that a contractor would need to be told decided.</summary>
/// <param name="Strategy">The strategy.</param>
/// <param name="Interventions">Its interventions that do something, by date; what neither removes nor places is left out.</param>
internal sealed record StrategyPlan(
    Strategy Strategy,
    ImmutableArray<PlannedIntervention> Interventions
)
{
    /// <summary>Whether the rim around repairs is followed with its own rate, where the deck states one.</summary>
    public bool CountsHalo { get; init; } = true;
}
