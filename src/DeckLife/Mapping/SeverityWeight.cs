using DeckLife.Population;

namespace DeckLife.Mapping;

/// <summary>How much a property of places counts in their severity: its correlation with it, by the model itself.</summary>
internal static class SeverityWeight
{
    /// <summary>Finds the weight.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="clock">How diffusion adds up.</param>
    /// <param name="at">The deck with the property at a standard score everywhere.</param>
    /// <returns>At least 0; a property counted from its severe end.</returns>
    /// <remarks>
    /// The active share's normal score rises by s with one standard deviation of the property (mean slope over one either side); in a normal severity
    /// that is the slope of a part with correlation s/√(1 + s²).
    /// </remarks>
    public static double Of(Deck deck, ExposureClock clock, Func<double, KnowledgeDraw> at)
    {
        double Score(double score) =>
            DrawScores.Of(at(score), deck.Analysis.Seed, clock, []).Active;
        var slope = 0.5 * (Score(1) - Score(-1));
        return slope > 0 ? slope / Math.Sqrt(1 + slope * slope) : 0;
    }
}
