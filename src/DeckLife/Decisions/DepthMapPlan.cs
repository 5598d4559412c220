using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Decisions;

/// <summary>What a depth-thickness map covers.</summary>
public sealed record DepthMapPlan
{
    /// <summary>When the intervention takes place, from the survey.</summary>
    public Age At { get; init; }

    /// <summary>Depths of removal, rising.</summary>
    public required ImmutableArray<Depth> RemovalDepths { get; init; }

    /// <summary>Thicknesses of overlay, rising.</summary>
    public required ImmutableArray<Depth> Thicknesses { get; init; }

    /// <summary>Names of the deck's materials to place.</summary>
    public required ImmutableArray<string> Materials { get; init; }

    /// <summary>Strategies shown as points on the map: the same draws, their own removal rule and date.</summary>
    public ImmutableArray<Strategy> Points { get; init; } = [];

    /// <summary>Limits that the answer must keep.</summary>
    public DepthLimits Limits { get; init; } = new();

    /// <summary>Draws of what is not known, for each case.</summary>
    public int Draws { get; init; } = 200;

    /// <summary>Points of the deck in each draw.</summary>
    public int AreaPoints { get; init; } = 64;

    /// <summary>
    /// The deck's own search where it states one; else the materials of its strategies, at the date of the first overlay, from scarifying
    /// at 1/4 in to 3 1/2 in deep and from 1 1/4 to 4 in thick.
    /// </summary>
    /// <param name="deck">The deck.</param>
    /// <returns>The plan; nothing where no strategy places an overlay.</returns>
    /// <remarks>The ends of both ranges are common practice of North American overlays; any of them may be stated by the deck.</remarks>
    public static DepthMapPlan? For(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        var placings = deck
            .Strategies.SelectMany(s => s.Interventions)
            .Where(i => i.Overlay is not null)
            .ToImmutableArray();
        if (placings.IsEmpty)
        {
            return null;
        }

        var search = deck.DepthSearch ?? new();
        return new()
        {
            At = search.At ?? placings.Min(i => i.At),
            RemovalDepths = search.RemovalDepths.IsEmpty
                ? Inches([0.25, 0.5, 1, 1.5, 2, 2.5, 3, 3.5])
                : search.RemovalDepths,
            Thicknesses = search.Thicknesses.IsEmpty
                ? Inches([1.25, 1.5, 2, 2.5, 3, 4])
                : search.Thicknesses,
            Materials =
            [
                .. placings.Select(i => i.Overlay!.Material).Distinct(StringComparer.Ordinal),
            ],
            Points =
            [
                .. deck.Strategies.Where(s => s.Interventions.Any(i => i.Overlay is not null)),
            ],
            Limits = search.Limits,
        };
    }

    /// <summary>The sweep that the map is made from.</summary>
    internal ExplorationPlan Sweep() =>
        new()
        {
            At = At,
            RemovalDepths = RemovalDepths,
            Overlays =
            [
                .. Materials.SelectMany(m => Thicknesses.Select(t => new OverlayPlacement(m, t))),
            ],
            ThresholdFactors = [1],
            Others = Points,
            Draws = Draws,
            Points = AreaPoints,
        };

    private static ImmutableArray<Depth> Inches(double[] inches) =>
        [.. inches.Select(Depth.FromInches)];
}
