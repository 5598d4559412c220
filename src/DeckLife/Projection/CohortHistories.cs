namespace DeckLife.Projection;

/// <summary>The histories of the points that share one fate at an intervention.</summary>
/// <param name="Places">Where each point's history stands; −1 for none.</param>
/// <param name="Histories">The histories.</param>
/// <param name="Count">Number of histories.</param>
internal sealed record CohortHistories(int[] Places, BarHistories Histories, int Count);
