using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>Removal down to where the content falls below a limit, by depth classes that a contractor can follow.</summary>
/// <param name="Limit">Content that may stay in the deck.</param>
/// <param name="MinimumDepth">Depth taken off everywhere.</param>
/// <param name="MaximumDepth">Depth that removal never passes.</param>
public sealed record ChlorideLimitRemoval(
    ChlorideContent Limit,
    Depth MinimumDepth,
    Depth MaximumDepth
) : RemovalRule;
