using System.Collections.Immutable;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.Reliability;

/// <summary>Probability of failure by sampling around all design points at once.</summary>
/// <remarks>
/// Equation: P = mean of 1[g ≤ 0] φ(u)/q(u), q = Σ w_k φ(u - u_k) over the design points and the origin; the origin's part (a tenth)
/// bounds the weights by 10 (defensive mixture: Hesterberg, Technometrics 37 (1995) 185-194).
/// Limits: of plain draws (no design point) Clopper and Pearson's; else normal ones from the spread of the weighted draws, and where
/// no draw fails the upper one is 10 times Clopper and Pearson's, since P ≤ 10 times the share of draws of q that fail.
/// Checked by: ReliabilityTests, and reliability/* of the reference checks.
/// </remarks>
public static class ImportanceSampling
{
    private const int ChunkSize = 4096;
    private const double OriginShare = 0.1;

    /// <summary>Estimates the probability of failure.</summary>
    /// <param name="limitState">The limit state.</param>
    /// <param name="points">Design points; with none the draws are plain ones.</param>
    /// <param name="draws">Number of draws, at least 2; rounded up to whole chunks of 4096.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="threads">Number of threads, 0 for all; the result is the same for any.</param>
    /// <param name="cancellation">Stops between two chunks.</param>
    public static ProbabilityEstimate Estimate(
        LimitState limitState,
        ImmutableArray<DesignPoint> points,
        int draws,
        ulong seed,
        int threads = 0,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(limitState);
        ArgumentOutOfRangeException.ThrowIfLessThan(draws, 2);
        var centres = Centres(limitState.Dimensions, points, out var weights);
        var chunks = FixedOrderParallel.ChunkCount(draws, ChunkSize);
        var sums = FixedOrderParallel.Map(
            chunks,
            chunk => Chunk(limitState, centres, weights, seed, chunk),
            threads,
            cancellation
        );
        double sum = 0,
            squares = 0;
        long events = 0;
        foreach (var (s, q, e) in sums)
        {
            sum += s;
            squares += q;
            events += e;
        }

        var n = (double)chunks * ChunkSize;
        var mean = sum / n;
        var error = Math.Sqrt(Math.Max(0, (squares / n) - (mean * mean)) / (n - 1));
        var (lower, upper, method) = Limits(mean, error, events, (long)n, weights[0]);
        return new()
        {
            Value = mean,
            StandardError = error,
            Lower = lower,
            Upper = upper,
            Level = 0.95,
            LimitMethod = method,
            Draws = (long)n,
            Events = events,
        };
    }

    private static (double Lower, double Upper, string Method) Limits(
        double mean,
        double error,
        long events,
        long draws,
        double originShare
    )
    {
        if (events > 0 && originShare < 1)
        {
            var half = 1.959963984540054 * error;
            return (
                Math.Max(0, mean - half),
                mean + half,
                "normal, from the spread of the weighted draws"
            );
        }

        var exact = BinomialLimits.ClopperPearson(events, draws);
        return originShare < 1
            ? (
                0,
                Math.Min(1, exact.Upper / originShare),
                "Clopper-Pearson for no event, times the largest weight"
            )
            : (exact.Lower, exact.Upper, exact.LimitMethod);
    }

    private static double[][] Centres(
        int dimensions,
        ImmutableArray<DesignPoint> points,
        out double[] weights
    )
    {
        // A failed origin needs no shift: what is rare there is safety.
        var used = points
            .Where(p => p.Status == DesignPointStatus.Converged && p.Beta > 0)
            .ToArray();
        var total = used.Sum(p => p.Probability);
        weights =
        [
            used.Length == 0 ? 1 : OriginShare,
            .. used.Select(p => (1 - OriginShare) * p.Probability / total),
        ];
        return [new double[dimensions], .. used.Select(p => p.Scores.ToArray())];
    }

    private static (double Sum, double Squares, long Events) Chunk(
        LimitState limitState,
        double[][] centres,
        double[] weights,
        ulong seed,
        int chunk
    )
    {
        var n = limitState.Dimensions;
        var stream = new RandomStream(seed, "importance sampling", (ulong)chunk);
        var columns = new double[n][];
        for (var d = 0; d < n; d++)
        {
            columns[d] = new double[ChunkSize];
            stream.FillNormal(columns[d]);
        }

        var ratio = new double[ChunkSize];
        for (var i = 0; i < ChunkSize; i++)
        {
            var pick = stream.NextUniform();
            var k = 0;
            while (k < weights.Length - 1 && pick >= weights[k])
            {
                pick -= weights[k];
                k++;
            }

            for (var d = 0; d < n; d++)
            {
                columns[d][i] += centres[k][d];
            }

            var density = 0.0;
            for (var j = 0; j < weights.Length; j++)
            {
                double cross = 0,
                    square = 0;
                for (var d = 0; d < n; d++)
                {
                    cross += columns[d][i] * centres[j][d];
                    square += centres[j][d] * centres[j][d];
                }

                density += weights[j] * Math.Exp(cross - (0.5 * square));
            }

            ratio[i] = 1 / density;
        }

        var g = new double[ChunkSize];
        limitState.Evaluate(ChunkSize, columns, g);
        double sum = 0,
            squares = 0;
        long events = 0;
        for (var i = 0; i < ChunkSize; i++)
        {
            if (g[i] <= 0)
            {
                sum += ratio[i];
                squares += ratio[i] * ratio[i];
                events++;
            }
        }

        return (sum, squares, events);
    }
}
