using System.Collections.Immutable;

namespace DeckLife.Economics;

/// <summary>How firmly strategies rank by cost: each draw is one state of what is not known, in which all are compared.</summary>
public static class RankStability
{
    /// <summary>Ranks strategies draw by draw.</summary>
    /// <param name="presentValues">For each strategy its present value in each draw; the same draws for all.</param>
    /// <returns>One rank a strategy, in the order given; the probabilities sum to 1.</returns>
    /// <exception cref="ArgumentException">No strategy, no draw, unequal numbers of draws, or a value that is not finite.</exception>
    public static ImmutableArray<StrategyRank> Of(IReadOnlyList<double[]> presentValues)
    {
        ArgumentNullException.ThrowIfNull(presentValues);
        if (presentValues.Count == 0 || presentValues[0].Length == 0)
        {
            throw new ArgumentException(
                "A ranking needs at least one strategy and one draw.",
                nameof(presentValues)
            );
        }

        var draws = presentValues[0].Length;
        if (presentValues.Any(v => v.Length != draws || !Array.TrueForAll(v, double.IsFinite)))
        {
            throw new ArgumentException(
                "Every strategy needs a finite present value in each of the same draws.",
                nameof(presentValues)
            );
        }

        var strategies = presentValues.Count;
        var wins = new double[strategies];
        var squares = new double[strategies];
        var regret = new double[strategies];
        for (var k = 0; k < draws; k++)
        {
            var least = presentValues.Min(v => v[k]);
            var share = 1.0 / presentValues.Count(v => v[k] == least);
            for (var s = 0; s < strategies; s++)
            {
                var value = presentValues[s][k];
                regret[s] += (value - least) / draws;
                if (value == least)
                {
                    wins[s] += share;
                    squares[s] += share * share;
                }
            }
        }

        return
        [
            .. Enumerable
                .Range(0, strategies)
                .Select(s =>
                {
                    var probability = wins[s] / draws;
                    var variance = Math.Max(0, (squares[s] / draws) - (probability * probability));
                    return new StrategyRank(probability, Math.Sqrt(variance / draws), regret[s]);
                }),
        ];
    }
}
