namespace DeckLife.Studies;

/// <summary>The estimate from the first draws.</summary>
/// <param name="Draws">Number of draws.</param>
/// <param name="Estimate">The probability of the event, or the mean; absent where no draw has a value.</param>
/// <param name="StandardError">Its standard error.</param>
public sealed record DrawConvergenceRow(long Draws, double? Estimate, double? StandardError);
