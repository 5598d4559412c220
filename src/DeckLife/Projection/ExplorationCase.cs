using DeckLife.Diagnostics;

namespace DeckLife.Projection;

/// <summary>One case of an exploration.</summary>
/// <param name="Removal">Index into the plan's removal depths.</param>
/// <param name="Overlay">Index into the plan's overlays.</param>
/// <param name="Threshold">Index into the plan's threshold factors.</param>
/// <param name="Projection">What the case does to the deck; absent when it was refused.</param>
/// <param name="Refusal">Why it was refused.</param>
public sealed record ExplorationCase(
    int Removal,
    int Overlay,
    int Threshold,
    StrategyProjection? Projection,
    Diagnostic? Refusal
);
