namespace DeckLife.Fitting;

/// <summary>A slice that a fit did not use, always with its reason.</summary>
/// <param name="Row">The line of the file, the head counted.</param>
/// <param name="Reason">Why it was left out.</param>
public sealed record ExcludedSlice(int Row, string Reason);
