namespace DeckLife.Decisions;

/// <summary>Something that could be learned before deciding.</summary>
/// <param name="Kind">What.</param>
/// <param name="Count">How many cores, readings or independent places.</param>
/// <param name="Price">What it costs, in the price list's currency; absent: not stated.</param>
public sealed record InformationOffer(InformationKind Kind, int Count, double? Price = null);
