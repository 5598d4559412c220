namespace DeckLife.Numerics.ImportanceSampling;

/// <summary>Importance weights with their largest smoothed, and what says whether they can be believed.</summary>
/// <remarks>
/// The largest min(n/5, 3 √n) weights are replaced by the expected order statistics of a generalised Pareto fitted to them.
/// Source: Vehtari, Simpson, Gelman, Yao and Gabry, Pareto smoothed importance sampling, Journal of Machine Learning Research 25
/// (2024); the fit: Zhang and Stephens, Technometrics 51 (2009) 316-325 (both from memory).
/// Checked by: ParetoSmoothedWeightsTests.
/// </remarks>
public sealed class ParetoSmoothedWeights
{
    private ParetoSmoothedWeights(double[] weights, double shape, double effectiveSampleSize)
    {
        Weights = weights;
        Shape = shape;
        EffectiveSampleSize = effectiveSampleSize;
    }

    /// <summary>Weights, smoothed and summing to 1.</summary>
    public IReadOnlyList<double> Weights { get; }

    /// <summary>Shape k of the tail: below 0.5 good, below 0.7 usable, above it not to be trusted; 0 where the largest weights are equal, so that there is no tail.</summary>
    public double Shape { get; }

    /// <summary>Effective number of draws, 1/Σw².</summary>
    public double EffectiveSampleSize { get; }

    /// <summary>Makes the weights.</summary>
    /// <param name="logWeights">Logarithms of the weights, up to a constant; negative infinity for a weight of 0.</param>
    /// <exception cref="ArgumentException">There are fewer than 25 weights, or all are 0, or one is not a number.</exception>
    public static ParetoSmoothedWeights From(ReadOnlySpan<double> logWeights)
    {
        var n = logWeights.Length;
        var largest = double.NegativeInfinity;
        foreach (var value in logWeights)
        {
            if (double.IsNaN(value) || double.IsPositiveInfinity(value))
            {
                throw new ArgumentException("A log weight is not a number.", nameof(logWeights));
            }

            largest = Math.Max(largest, value);
        }

        if (n < 25 || double.IsNegativeInfinity(largest))
        {
            throw new ArgumentException(
                "At least 25 weights are needed, not all of them 0.",
                nameof(logWeights)
            );
        }

        var weights = new double[n];
        var order = new int[n];
        for (var i = 0; i < n; i++)
        {
            weights[i] = Math.Exp(logWeights[i] - largest);
            order[i] = i;
        }

        // Ties by index, so that the order is the same everywhere.
        Array.Sort(
            order,
            (a, b) => weights[a] != weights[b] ? weights[a].CompareTo(weights[b]) : a.CompareTo(b)
        );
        var shape = Smooth(weights, order);
        var sum = weights.Sum();
        var squares = 0.0;
        for (var i = 0; i < n; i++)
        {
            weights[i] /= sum;
            squares += weights[i] * weights[i];
        }

        return new(weights, shape, 1 / squares);
    }

    /// <summary>Draws indices in proportion to the weights, evenly spread (systematic resampling).</summary>
    /// <param name="count">Number of indices.</param>
    /// <param name="uniform">One number between 0 and 1: where the comb starts.</param>
    /// <returns>The indices, rising.</returns>
    public int[] Resample(int count, double uniform)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        var result = new int[count];
        var at = 0;
        var reached = Weights[0];
        for (var k = 0; k < count; k++)
        {
            var target = (k + uniform) / count;
            while (reached < target && at < Weights.Count - 1)
            {
                at++;
                reached += Weights[at];
            }

            result[k] = at;
        }

        return result;
    }

    private static double Smooth(double[] weights, int[] order)
    {
        var n = weights.Length;
        var tail = (int)Math.Min(0.2 * n, 3 * Math.Sqrt(n));
        var cutoff = weights[order[n - tail - 1]];
        var excess = new double[tail];
        for (var i = 0; i < tail; i++)
        {
            excess[i] = weights[order[n - tail + i]] - cutoff;
        }

        if (!(excess[^1] > 0) || excess[^1] <= 1e-12 * cutoff)
        {
            return 0;
        }

        var (shape, scale) = FitTail(excess);
        for (var i = 0; i < tail; i++)
        {
            var p = (i + 0.5) / tail;
            var quantile =
                Math.Abs(shape) < 1e-12
                    ? -scale * Math.Log(1 - p)
                    : scale * (Math.Pow(1 - p, -shape) - 1) / shape;
            weights[order[n - tail + i]] = Math.Min(cutoff + quantile, 1);
        }

        return shape;
    }

    // Generalised Pareto by the empirical Bayes estimate of Zhang and Stephens, with the weak prior of the smoothing paper.
    private static (double Shape, double Scale) FitTail(double[] excess)
    {
        var n = excess.Length;
        var candidates = 30 + (int)Math.Sqrt(n);
        var quartile = Math.Max(excess[(int)(n / 4.0 + 0.5) - 1], 1e-300);
        var b = new double[candidates];
        var profile = new double[candidates];
        for (var j = 0; j < candidates; j++)
        {
            b[j] = 1 / excess[^1] + (1 - Math.Sqrt(candidates / (j + 0.5))) / (3 * quartile);
            var k = MeanLog(excess, b[j]);
            profile[j] = n * (Math.Log(-b[j] / k) - k - 1);
        }

        var mean = 0.0;
        for (var j = 0; j < candidates; j++)
        {
            var weight = 0.0;
            for (var i = 0; i < candidates; i++)
            {
                weight += Math.Exp(profile[i] - profile[j]);
            }

            mean += b[j] / weight;
        }

        var shape = MeanLog(excess, mean);
        var scale = -shape / mean;
        return ((shape * n + 0.5 * 10) / (n + 10), scale);
    }

    private static double MeanLog(double[] excess, double b)
    {
        var sum = 0.0;
        foreach (var x in excess)
        {
            sum += Math.Log(1 - b * x);
        }

        return sum / excess.Length;
    }
}
