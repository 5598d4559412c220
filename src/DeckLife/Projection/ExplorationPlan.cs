using System.Collections.Immutable;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What an exploration varies: every removal depth with every overlay, under every threshold.</summary>
public sealed record ExplorationPlan
{
    /// <summary>When the one intervention takes place, from the survey [yr].</summary>
    public Age At { get; init; }

    /// <summary>Depths taken off everywhere [mm], rising.</summary>
    public required ImmutableArray<Depth> RemovalDepths { get; init; }

    /// <summary>Overlays placed.</summary>
    public required ImmutableArray<OverlayPlacement> Overlays { get; init; }

    /// <summary>Factors on the threshold's mean, in (0, 10].</summary>
    public ImmutableArray<double> ThresholdFactors { get; init; } = [0.7, 1, 1.4];

    /// <summary>Further strategies that go along in the same draws, whatever they do and when.</summary>
    public ImmutableArray<Strategy> Others { get; init; } = [];

    /// <summary>Draws of what is not known, for each case.</summary>
    public int Draws { get; init; } = 100;

    /// <summary>Points of the deck in each draw.</summary>
    public int Points { get; init; } = 64;

    /// <summary>The overlays that the deck's strategies name, at the date of the first, over depths from 1/2 in to 3 in.</summary>
    /// <param name="deck">The deck.</param>
    /// <returns>The plan; nothing where no strategy places an overlay.</returns>
    public static ExplorationPlan? For(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        var placings = deck
            .Strategies.SelectMany(s => s.Interventions)
            .Where(i => i.Overlay is not null)
            .ToImmutableArray();
        return placings.IsEmpty
            ? null
            : new()
            {
                At = placings.Min(i => i.At),
                RemovalDepths =
                [
                    .. new[] { 0.5, 1, 1.5, 2, 3 }
                        .Select(Depth.FromInches)
                        .Where(d => d.Millimetres + 10 < deck.Thickness.Millimetres),
                ],
                Overlays = [.. placings.Select(i => i.Overlay!).Distinct()],
            };
    }
}
