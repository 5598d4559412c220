using System.Collections.Immutable;
using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What a strategy does at one place, in an order that a reviewer can follow by hand: salt, removal, overlay, initiation, damage, repair.</summary>
/// <remarks>
/// The same solver and the same rules as the projection of the deck, at one point with nothing unknown: materials and their lives at their
/// medians. The rim around repairs is not looked at: the place lies outside.
/// </remarks>
public sealed record PointTimeline
{
    private PointTimeline() { }

    /// <summary>The strategy.</summary>
    public required Strategy Strategy { get; init; }

    /// <summary>The place.</summary>
    public required TimelinePlace Place { get; init; }

    /// <summary>Every year from the first salt to the horizon, and just before and after each intervention.</summary>
    public required ImmutableArray<TimelineRow> Rows { get; init; }

    /// <summary>What is done, by date.</summary>
    public required ImmutableArray<TimelineEvent> Events { get; init; }

    /// <summary>What becomes of the bar, from one repair to the next.</summary>
    public required ImmutableArray<TimelineFate> Fates { get; init; }

    /// <summary>Follows a place.</summary>
    /// <param name="deck">The deck; its horizon ends the timeline.</param>
    /// <param name="place">The place.</param>
    /// <param name="strategy">What is done; need not be among the deck's strategies.</param>
    /// <exception cref="ProjectionRefusedException">The strategy is refused; the reason is given.</exception>
    public static PointTimeline Of(Deck deck, TimelinePlace place, Strategy strategy)
    {
        ArgumentNullException.ThrowIfNull(deck);
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(strategy);
        var walk = new TimelineWalk(deck, place);
        return walk.Follow(strategy);
    }

    /// <summary>Puts a finished walk together.</summary>
    internal static PointTimeline Made(
        Strategy strategy,
        TimelinePlace place,
        ImmutableArray<TimelineRow> rows,
        ImmutableArray<TimelineEvent> events,
        ImmutableArray<TimelineFate> fates
    ) =>
        new()
        {
            Strategy = strategy,
            Place = place,
            Rows = rows,
            Events = events,
            Fates = fates,
        };
}
