namespace DeckLife.Studies;

/// <summary>The rank correlation (Spearman) of two drawn quantities.</summary>
/// <param name="First">One quantity.</param>
/// <param name="Second">The other.</param>
/// <param name="Rank">The rank correlation, -1 to 1.</param>
public sealed record StudyCorrelation(StudyVariable First, StudyVariable Second, double Rank);
