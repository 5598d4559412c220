namespace DeckLife.Surveys;

/// <summary>One node of a half-cell survey.</summary>
/// <param name="Row">The line of the file it came from.</param>
/// <param name="X">Position along the deck [m].</param>
/// <param name="Y">Position across the deck [m].</param>
/// <param name="PotentialMvCse">Potential against a copper/copper-sulfate electrode [mV].</param>
public sealed record HalfCellReading(int Row, double X, double Y, double PotentialMvCse);
