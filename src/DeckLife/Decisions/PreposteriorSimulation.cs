using DeckLife.Numerics.Sampling;

namespace DeckLife.Decisions;

/// <summary>What data are worth before they are collected, by simulation over draws that are there.</summary>
/// <remarks>
/// Each draw in turn is taken as the truth: data fall out as it says, all other draws are weighed by how well they explain the data, the
/// strategy of least weighed mean is chosen, and what the choice saves is counted in the truth itself. Draws of the truth's own index are
/// left out of the weighing, so that nothing is learned from the answer: the value is that of a rule that could be followed, and
/// not raised by chance. Source: Raiffa and Schlaifer, Applied Statistical Decision Theory (1961), extensive form of analysis.
/// </remarks>
internal static class PreposteriorSimulation
{
    /// <summary>Most draws weighed against each other: the work grows with their square.</summary>
    public const int MostDraws = 2000;

    /// <summary>Simulates.</summary>
    /// <param name="costs">For each strategy its cost in each draw.</param>
    /// <param name="indices">Index of each draw.</param>
    /// <param name="model">The data.</param>
    /// <param name="threads">Most threads; 0 for as many as there are.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <returns>Saving, its error, probability of another choice, effective number of draws.</returns>
    public static (double Value, double Error, double Change, double Effective) Run(
        IReadOnlyList<IReadOnlyList<double>> costs,
        IReadOnlyList<int> indices,
        ISampleModel model,
        int threads = 0,
        CancellationToken cancellation = default
    )
    {
        var draws = indices.Count;
        var now = Enumerable.Range(0, costs.Count).MinBy(s => costs[s].Average());
        var outcomes = FixedOrderParallel.Map<(double Saved, bool Changed, double Effective)>(
            draws,
            k =>
            {
                Span<double> data = stackalloc double[model.Length];
                model.Simulate(k, data);
                var weights = new double[draws];
                var most = double.NegativeInfinity;
                for (var j = 0; j < draws; j++)
                {
                    weights[j] =
                        indices[j] == indices[k]
                            ? double.NegativeInfinity
                            : model.LogDensity(data, j);
                    most = Math.Max(most, weights[j]);
                }

                if (double.IsNegativeInfinity(most))
                {
                    return (0.0, false, 0.0);
                }

                var (sum, squares) = (0.0, 0.0);
                for (var j = 0; j < draws; j++)
                {
                    weights[j] = Math.Exp(weights[j] - most);
                    sum += weights[j];
                    squares += weights[j] * weights[j];
                }

                var (best, least) = (now, double.PositiveInfinity);
                for (var s = 0; s < costs.Count; s++)
                {
                    var mean = 0.0;
                    for (var j = 0; j < draws; j++)
                    {
                        mean += weights[j] * costs[s][j];
                    }

                    if (mean < least || (mean == least && s == now))
                    {
                        (best, least) = (s, mean);
                    }
                }

                return (costs[now][k] - costs[best][k], best != now, sum * sum / squares);
            },
            threads,
            cancellation
        );
        var (value, error) = PairedMean.Of([.. outcomes.Select(o => o.Saved)]);
        return (
            value,
            error,
            outcomes.Average(o => o.Changed ? 1.0 : 0),
            outcomes.Average(o => o.Effective)
        );
    }
}
