namespace DeckLife.Materials;

/// <summary>How one property of a mix stands against its limit.</summary>
/// <param name="Property">The property, in words, with its unit.</param>
/// <param name="Value">What the mix has; absent: not stated.</param>
/// <param name="Limit">The specification's limit; absent: it states none.</param>
/// <param name="Outcome">How they compare.</param>
public sealed record MixFinding(string Property, double? Value, double? Limit, MixOutcome Outcome);
