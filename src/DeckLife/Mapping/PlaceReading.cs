namespace DeckLife.Mapping;

/// <summary>A reading at a cell of a map, as a standard score of what it reads.</summary>
/// <param name="Cell">Index of the cell.</param>
/// <param name="Value">The score.</param>
/// <param name="ErrorVariance">Variance of its error, what varies within a cell included.</param>
internal readonly record struct PlaceReading(int Cell, double Value, double ErrorVariance);
