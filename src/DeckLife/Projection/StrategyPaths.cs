using System.Collections.Immutable;
using DeckLife.Economics;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What one strategy does to the deck in every draw of what is not known.</summary>
public sealed record StrategyPaths
{
    /// <summary>The strategy.</summary>
    public required Strategy Strategy { get; init; }

    /// <summary>Share of the area damaged and not repaired: for each draw one value for each whole year from the survey and the horizon, before an intervention at that time.</summary>
    public required ImmutableArray<ImmutableArray<double>> Damaged { get; init; }

    /// <summary>What the work costs at the prices as listed: for each draw its payments; empty without prices.</summary>
    public required ImmutableArray<ImmutableArray<Payment>> Payments { get; init; }

    internal static StrategyPaths Of(
        Strategy strategy,
        StrategyDraw[] draws,
        Func<StrategyDraw, ImmutableArray<Payment>> payments
    ) =>
        new()
        {
            Strategy = strategy,
            Damaged =
            [
                .. draws.Select(d => d.Grid.Yearly.Select(j => d.Damaged[j]).ToImmutableArray()),
            ],
            Payments = [.. draws.Select(payments)],
        };
}
