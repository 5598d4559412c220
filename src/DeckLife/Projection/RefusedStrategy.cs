using DeckLife.Diagnostics;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>A strategy that was not projected, with the reason.</summary>
/// <param name="Strategy">The strategy.</param>
/// <param name="Reason">Why not.</param>
public sealed record RefusedStrategy(Strategy Strategy, Diagnostic Reason);
