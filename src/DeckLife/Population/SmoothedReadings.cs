using DeckLife.Projection;

namespace DeckLife.Population;

/// <summary>The readings themselves as a distribution of standard scores: each spread by a normal kernel, the whole drawn in to unit variance.</summary>
/// <remarks>
/// Equation: F(z) = mean over readings of Φ((z − m_i)/h), m_i = z_i/√(1 + h²), h = 0.9 min(1, IQR/1.34) n^(−1/5), z_i the reading's own score.
/// Source: Silverman, Density Estimation for Statistics and Data Analysis (1986), ch. 2 and 3 (memory).
/// </remarks>
internal sealed class SmoothedReadings
{
    private const int TableSize = 1025;

    private readonly double[] table = new double[TableSize];

    /// <summary>Makes the distribution.</summary>
    /// <param name="values">The readings, not all equal.</param>
    public SmoothedReadings(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        var mean = sorted.Average();
        var sd = Math.Sqrt(
            sorted.Sum(v => (v - mean) * (v - mean)) / Math.Max(1, sorted.Length - 1)
        );
        var scores = sorted.Select(v => (v - mean) / sd).ToArray();
        var quartiles = Percentiles.At(scores, 0.75) - Percentiles.At(scores, 0.25);
        var width =
            0.9
            * (quartiles > 0 ? Math.Min(1, quartiles / 1.34) : 1)
            * Math.Pow(scores.Length, -0.2);
        var centres = scores.Select(z => z / Math.Sqrt(1 + width * width)).ToArray();
        for (var k = 0; k < TableSize; k++)
        {
            var p = Math.Clamp(k / (TableSize - 1.0), 1e-5, 1 - 1e-5);
            table[k] = Invert(centres, width, p);
        }
    }

    /// <summary>The value below which a share of the points lies.</summary>
    /// <param name="probability">The share, 0 to 1.</param>
    public double Quantile(double probability)
    {
        var place = Math.Clamp(probability, 0, 1) * (TableSize - 1);
        var k = Math.Min((int)place, TableSize - 2);
        return table[k] + (place - k) * (table[k + 1] - table[k]);
    }

    /// <summary>The share at most a value.</summary>
    /// <param name="value">The value.</param>
    public double Cumulative(double value)
    {
        if (value <= table[0])
        {
            return 0;
        }

        if (value >= table[^1])
        {
            return 1;
        }

        var found = Array.BinarySearch(table, value);
        if (found >= 0)
        {
            return found / (TableSize - 1.0);
        }

        var k = ~found - 1;
        return (k + (value - table[k]) / (table[k + 1] - table[k])) / (TableSize - 1);
    }

    private static double Share(double[] centres, double kernel, double value)
    {
        var sum = 0.0;
        foreach (var centre in centres)
        {
            sum += PointDistribution.StandardNormalCumulative((value - centre) / kernel);
        }

        return sum / centres.Length;
    }

    private static double Invert(double[] centres, double kernel, double probability)
    {
        double low = centres[0] - 8 * kernel,
            high = centres[^1] + 8 * kernel;
        for (var i = 0; i < 60 && high - low > 1e-9 * Math.Max(1, Math.Abs(high)); i++)
        {
            var middle = 0.5 * (low + high);
            if (Share(centres, kernel, middle) < probability)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return 0.5 * (low + high);
    }
}
