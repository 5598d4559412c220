using DeckLife.Projection;

namespace DeckLife.Reporting.Sections;

/// <summary>The strategy that a report opens with: the likeliest to be the cheapest, else the longest-lived.</summary>
public static class LeadingStrategy
{
    /// <summary>Finds it; nothing where there is no strategy.</summary>
    /// <param name="projection">The projection.</param>
    public static StrategyProjection? Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return projection.Strategies.Any(s => s.CheapestProbability is not null)
            ? projection.Strategies.MaxBy(s => s.CheapestProbability ?? -1)
            : projection.Strategies.MaxBy(s => s.ServiceLife.P50Yr ?? double.MaxValue);
    }

    /// <summary>How sure the ranking is, in a word.</summary>
    /// <param name="probability">Probability that the strategy is the cheapest.</param>
    public static string Confidence(double probability) =>
        probability switch
        {
            >= 0.9 => "a clear lead",
            >= 0.7 => "a likely lead",
            >= 0.5 => "a slight lead",
            _ => "open: no strategy is the cheapest in half of the draws",
        };
}
