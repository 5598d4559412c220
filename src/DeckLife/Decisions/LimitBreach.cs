namespace DeckLife.Decisions;

/// <summary>A limit that a removal and overlay does not keep.</summary>
/// <param name="Limit">The limit, in words.</param>
/// <param name="Value">What the case has; absent: it can't be computed from what the deck says, so the limit is not shown to be kept.</param>
/// <param name="Allowed">What is allowed, in the same unit.</param>
/// <param name="Unit">The unit; a share has none.</param>
public sealed record LimitBreach(string Limit, double? Value, double Allowed, string Unit);
