using DeckLife.Projection;

namespace DeckLife.Reporting.Sections;

/// <summary>The strategy that a report recommends: of least mean present value, else the longest-lived.</summary>
public static class LeadingStrategy
{
    /// <summary>Finds it; nothing where there is no strategy.</summary>
    /// <param name="projection">The projection.</param>
    public static StrategyProjection? Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        // All share their draws, so the least mean present value and the least expected regret are of one strategy.
        return projection.Strategies.Any(s => s.ExpectedRegret is not null)
            ? projection.Strategies.MinBy(s => s.ExpectedRegret ?? double.MaxValue)
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
            _ => "open: another is cheaper in more than half of the draws",
        };
}
