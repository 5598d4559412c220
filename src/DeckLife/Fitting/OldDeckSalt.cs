using DeckLife.Quantities;

namespace DeckLife.Fitting;

/// <summary>What a deck went through before its overlay was placed: salt of those years may lie under it.</summary>
/// <param name="Exposure">Time from the first salt to the placing of the overlay; 0: none.</param>
/// <param name="Removed">Depth of old concrete that came off before.</param>
public sealed record OldDeckSalt(Age Exposure, Depth Removed);
