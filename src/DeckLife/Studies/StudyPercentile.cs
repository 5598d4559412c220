namespace DeckLife.Studies;

/// <summary>A percentile of an output.</summary>
/// <param name="Percent">The percentage, 0 to 100.</param>
/// <param name="Value">The value; absent where it was not reached.</param>
public sealed record StudyPercentile(double Percent, double? Value);
