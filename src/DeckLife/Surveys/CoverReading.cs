using DeckLife.Quantities;

namespace DeckLife.Surveys;

/// <summary>One reading of the cover over the top bars.</summary>
/// <param name="Row">The line of the file it came from.</param>
/// <param name="X">Position along the deck [m], where surveyed.</param>
/// <param name="Y">Position across the deck [m], where surveyed.</param>
/// <param name="Cover">Cover from the surface of the survey to the top of the bar.</param>
public sealed record CoverReading(int Row, double? X, double? Y, Depth Cover);
