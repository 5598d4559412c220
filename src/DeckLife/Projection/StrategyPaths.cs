using System.Collections.Immutable;
using DeckLife.Economics;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What one strategy does to the deck in every draw of what is not known.</summary>
public sealed record StrategyPaths
{
    /// <summary>The strategy.</summary>
    public required Strategy Strategy { get; init; }

    /// <summary>Times from the survey [yr]: each whole year and the horizon; the state before an intervention at that time.</summary>
    public required ImmutableArray<double> TimesYr { get; init; }

    /// <summary>Share of the area damaged and not repaired: for each draw one value a time.</summary>
    public required ImmutableArray<ImmutableArray<double>> Damaged { get; init; }

    /// <summary>What is done: for each draw one entry an intervention.</summary>
    public required ImmutableArray<ImmutableArray<WorkQuantities>> Work { get; init; }

    internal static StrategyPaths Of(Deck deck, StrategyPlan plan, StrategyDraw[] draws)
    {
        var grid = TimeGrid.For(deck.Horizon.Years, plan.Interventions);
        return new()
        {
            Strategy = plan.Strategy,
            TimesYr = [.. grid.Yearly.Select(j => grid.TimesYr[j])],
            Damaged =
            [
                .. draws.Select(d => grid.Yearly.Select(j => d.Damaged[j]).ToImmutableArray()),
            ],
            Work = [.. draws.Select(d => WorkOf(deck, plan, d))],
        };
    }

    private static ImmutableArray<WorkQuantities> WorkOf(
        Deck deck,
        StrategyPlan plan,
        StrategyDraw draw
    ) =>
        draw.Intervention is { } work
            ?
            [
                new()
                {
                    AtYr = plan.Interventions[0].AtYr,
                    DeckAreaM2 = deck.AreaM2,
                    RepairedAreaM2 = work.Repaired * deck.AreaM2,
                    RemovedM3 = work.MeanRemovalMm / 1000 * deck.AreaM2,
                    PlacedM3 = work.MeanPlacedMm / 1000 * deck.AreaM2,
                    Material = plan.Interventions[0].Material?.Name,
                },
            ]
            : [];
}
