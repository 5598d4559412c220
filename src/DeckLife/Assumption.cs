namespace DeckLife;

/// <summary>Something taken for granted because no input says it.</summary>
/// <param name="Subject">What the assumption is about.</param>
/// <param name="Text">What is assumed, with its value and unit.</param>
/// <param name="Source">Where the value comes from: a publication, common practice, or memory.</param>
public sealed record Assumption(string Subject, string Text, string Source);
