using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.MarkovChains;

/// <summary>Convergence of parallel chains of one quantity: split R-hat and effective sample sizes.</summary>
/// <remarks>
/// Source: Vehtari, Gelman, Simpson, Carpenter and Bürkner, Rank-normalization, folding, and localization: an improved R-hat for
/// assessing convergence of MCMC (Bayesian Analysis 16, 2021), equations 1 to 14; autocorrelations by Geyer's initial
/// monotone sequence (Statistical Science 7, 1992). Each method throws an <see cref="ArgumentException"/> for no chain, chains of
/// different lengths or of fewer than 4 values. Checked by ChainDiagnosticsTests, against a peer script and AR(1) theory.
/// </remarks>
public static class ChainDiagnostics
{
    /// <summary>Split R-hat of the values as they are.</summary>
    /// <param name="chains">At least one chain; all of one length, at least 4.</param>
    /// <returns>R-hat; 1 when nothing varies, <see cref="double.MaxValue"/> where the halves of chains differ and nothing varies within them.</returns>
    public static double SplitRHat(IReadOnlyList<double[]> chains) => RHat(Split(chains));

    /// <summary>The larger of the split R-hats of the rank-normalised values and of their rank-normalised distances from the median.</summary>
    /// <param name="chains">At least one chain; all of one length, at least 4.</param>
    public static double RankNormalizedRHat(IReadOnlyList<double[]> chains)
    {
        var halves = Split(chains);
        return Math.Max(RHat(RankNormal(halves)), RHat(RankNormal(Folded(halves))));
    }

    /// <summary>Effective sample size for the mean of the values as they are.</summary>
    /// <param name="chains">At least one chain; all of one length, at least 4.</param>
    public static double EffectiveSampleSize(IReadOnlyList<double[]> chains) =>
        Effective(Split(chains));

    /// <summary>Bulk effective sample size: that of the rank-normalised values.</summary>
    /// <param name="chains">At least one chain; all of one length, at least 4.</param>
    public static double BulkEffectiveSampleSize(IReadOnlyList<double[]> chains) =>
        Effective(RankNormal(Split(chains)));

    /// <summary>Tail effective sample size: the smaller of those of the indicators of the 5 % and 95 % quantiles.</summary>
    /// <param name="chains">At least one chain; all of one length, at least 4.</param>
    public static double TailEffectiveSampleSize(IReadOnlyList<double[]> chains)
    {
        var halves = Split(chains);
        double[] sorted = [.. halves.SelectMany(c => c).Order()];
        var smallest = double.PositiveInfinity;
        foreach (var probability in (ReadOnlySpan<double>)[0.05, 0.95])
        {
            var cut = sorted[(int)(probability * (sorted.Length - 1))];
            smallest = Math.Min(
                smallest,
                Effective([.. halves.Select(c => Array.ConvertAll(c, v => v <= cut ? 1.0 : 0.0))])
            );
        }

        return smallest;
    }

    private static double[][] Split(IReadOnlyList<double[]> chains)
    {
        ArgumentNullException.ThrowIfNull(chains);
        if (chains.Count == 0 || chains.Any(c => c.Length != chains[0].Length))
        {
            throw new ArgumentException("The chains must be of one length.", nameof(chains));
        }

        var half = chains[0].Length / 2;
        ArgumentOutOfRangeException.ThrowIfLessThan(half, 2, nameof(chains));
        // An odd chain loses its middle value, as in the source's own code.
        return [.. chains.SelectMany(c => new[] { c[..half], c[^half..] })];
    }

    private static double RHat(double[][] chains)
    {
        var (within, plus) = Variances(chains);
        return plus == 0 ? 1
            : within == 0 ? double.MaxValue
            : Math.Sqrt(plus / within);
    }

    private static (double Within, double Plus) Variances(double[][] chains)
    {
        var n = chains[0].Length;
        double[] means = [.. chains.Select(c => c.Average())];
        var within = chains
            .Select((c, i) => c.Sum(v => (v - means[i]) * (v - means[i])) / (n - 1))
            .Average();
        var grand = means.Average();
        var between =
            chains.Length > 1 ? means.Sum(m => (m - grand) * (m - grand)) / (chains.Length - 1) : 0;
        return (within, (within * (n - 1) / n) + between);
    }

    private static double Effective(double[][] chains)
    {
        var n = chains[0].Length;
        var total = (double)n * chains.Length;
        var (within, plus) = Variances(chains);
        if (plus == 0)
        {
            return total;
        }

        double[][] centred =
        [
            .. chains.Select(c =>
            {
                var mean = c.Average();
                return Array.ConvertAll(c, v => v - mean);
            }),
        ];
        double Rho(int lag)
        {
            double sum = 0;
            foreach (var values in centred)
            {
                sum += Product(values.AsSpan(0, n - lag), values.AsSpan(lag));
            }

            return 1 - ((within - (sum / total)) / plus);
        }

        // Geyer: sums of neighbouring pairs, positive and made monotone.
        var first = Rho(1);
        var previous = 1 + first;
        var time = -1 + (2 * previous);
        var lagged = 2;
        double lastEven = 0;
        while (lagged + 1 < n - 2)
        {
            var even = Rho(lagged);
            var odd = Rho(lagged + 1);
            if (!(even + odd > 0))
            {
                lastEven = even;
                break;
            }

            previous = Math.Min(previous, even + odd);
            time += 2 * previous;
            lagged += 2;
        }

        // The improved estimate of the source's code: the last even term, when positive, belongs to the sum.
        time += Math.Max(0, lastEven);

        // An antithetic chain may do better than independence, but not without bound.
        time = Math.Max(time, 1 / Math.Log10(total));
        return total / time;
    }

    // Four sums at a time: one alone waits for itself.
    private static double Product(ReadOnlySpan<double> one, ReadOnlySpan<double> other)
    {
        var (a, b, c, d) = (0.0, 0.0, 0.0, 0.0);
        var i = 0;
        for (; i + 4 <= one.Length; i += 4)
        {
            a += one[i] * other[i];
            b += one[i + 1] * other[i + 1];
            c += one[i + 2] * other[i + 2];
            d += one[i + 3] * other[i + 3];
        }

        for (; i < one.Length; i++)
        {
            a += one[i] * other[i];
        }

        return (a + b) + (c + d);
    }

    private static double[][] Folded(double[][] chains)
    {
        double[] sorted = [.. chains.SelectMany(c => c).Order()];
        var middle = sorted.Length / 2;
        var median =
            sorted.Length % 2 == 1 ? sorted[middle] : 0.5 * (sorted[middle - 1] + sorted[middle]);
        return [.. chains.Select(c => Array.ConvertAll(c, v => Math.Abs(v - median)))];
    }

    private static double[][] RankNormal(double[][] chains)
    {
        var n = chains[0].Length;
        double[] all = [.. chains.SelectMany(c => c)];
        var sorted = (double[])all.Clone();
        int[] order = [.. Enumerable.Range(0, all.Length)];
        Array.Sort(sorted, order);
        var result = new double[all.Length];
        for (var start = 0; start < order.Length; )
        {
            var end = start;
            while (end + 1 < order.Length && sorted[end + 1] == sorted[start])
            {
                end++;
            }

            // Ties share their mean rank; Blom's offset 3/8.
            var rank = 1 + (0.5 * (start + end));
            var probability = (rank - 0.375) / (all.Length + 0.25);
            var value = NormalQuantile.At(probability);
            for (var i = start; i <= end; i++)
            {
                result[order[i]] = value;
            }

            start = end + 1;
        }

        return [.. chains.Select((_, c) => result[(c * n)..((c + 1) * n)])];
    }
}
