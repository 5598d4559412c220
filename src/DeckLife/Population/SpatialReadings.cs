namespace DeckLife.Population;

/// <summary>How many independent readings a survey is worth, its readings being alike where they are close.</summary>
public static class SpatialReadings
{
    /// <summary>Correlation length of readings on a deck [m], or nothing where the readings do not show one.</summary>
    /// <param name="x">Position along the deck [m].</param>
    /// <param name="y">Position across the deck [m].</param>
    /// <param name="values">The readings.</param>
    /// <remarks>
    /// The correlation of pairs is taken in 12 classes of distance up to a third of the deck's extent, and ρ(d) = exp(−d/ℓ) is fitted by least
    /// squares over ℓ on a grid. Source: common geostatistical practice; exponential model.
    /// </remarks>
    public static double? CorrelationLength(double[] x, double[] y, double[] values)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        ArgumentNullException.ThrowIfNull(values);
        var n = values.Length;
        if (n < 30)
        {
            return null;
        }

        const int Classes = 12;
        var extent = Math.Sqrt(Math.Pow(x.Max() - x.Min(), 2) + Math.Pow(y.Max() - y.Min(), 2));
        var mean = values.Average();
        var variance = values.Average(v => (v - mean) * (v - mean));
        var reach = extent / 3;
        if (!(variance > 0) || !(reach > 0))
        {
            return null;
        }

        var sums = new double[Classes];
        var distances = new double[Classes];
        var counts = new long[Classes];
        for (var i = 0; i < n; i++)
        {
            for (var j = i + 1; j < n; j++)
            {
                var d = Distance(x, y, i, j);
                var c = (int)(Classes * d / reach);
                if (c < Classes)
                {
                    sums[c] += (values[i] - mean) * (values[j] - mean) / variance;
                    distances[c] += d;
                    counts[c]++;
                }
            }
        }

        var best = double.PositiveInfinity;
        double? length = null;
        for (var step = 0; step <= 80; step++)
        {
            var candidate = reach * Math.Pow(10, -2.5 + step / 32.0);
            var misfit = 0.0;
            for (var c = 0; c < Classes; c++)
            {
                if (counts[c] > 0)
                {
                    var gap = sums[c] / counts[c] - Math.Exp(-distances[c] / counts[c] / candidate);
                    misfit += counts[c] * gap * gap;
                }
            }

            if (misfit < best)
            {
                best = misfit;
                length = candidate;
            }
        }

        return length;
    }

    /// <summary>Number of independent readings that tell as much about the mean, with ρ(d) = exp(−d/ℓ).</summary>
    /// <param name="x">Position along the deck [m].</param>
    /// <param name="y">Position across the deck [m].</param>
    /// <param name="lengthM">Correlation length ℓ [m]; 0: independent.</param>
    /// <remarks>Equation: n² / ΣΣρ(d_ij). Source: Griffith, Annals of the Association of American Geographers 95 (2005) (memory).</remarks>
    public static double EffectiveNumber(double[] x, double[] y, double lengthM)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        var n = x.Length;
        if (n == 0 || lengthM <= 0)
        {
            return n;
        }

        double sum = n;
        for (var i = 0; i < n; i++)
        {
            for (var j = i + 1; j < n; j++)
            {
                sum += 2 * Math.Exp(-Distance(x, y, i, j) / lengthM);
            }
        }

        return (double)n * n / sum;
    }

    /// <summary>Number of independent places on an area, with ρ(d) = exp(−d/ℓ).</summary>
    /// <param name="areaM2">Area [m²].</param>
    /// <param name="lengthM">Correlation length ℓ [m].</param>
    /// <remarks>Equation: area over the integral of ρ over the plane, 2πℓ²; at least 1.</remarks>
    public static double EffectiveNumber(double areaM2, double lengthM) =>
        Math.Max(1, areaM2 / (2 * Math.PI * lengthM * lengthM));

    private static double Distance(double[] x, double[] y, int i, int j) =>
        Math.Sqrt((x[i] - x[j]) * (x[i] - x[j]) + (y[i] - y[j]) * (y[i] - y[j]));
}
