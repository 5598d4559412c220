using DeckLife.Numerics.LinearMixed;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.SpatialStatistics;

/// <summary>A stationary field in the plane with exponential correlation and a nugget, estimated by restricted maximum likelihood.</summary>
/// <remarks>
/// Model: y = µ + field + nugget, cov = σ²[(1 − ν) exp(−d/ℓ) + ν·(same reading)]. µ and σ² have closed forms for given ℓ and ν; ν is sought for
/// each of a row of lengths, from a third of the median distance to the nearest neighbour to the extent, and the profile over ln ℓ gives estimate
/// and limits (χ² with one degree of freedom). Where the likelihood of independent readings lies within the limits, no length is ruled out.
/// Source: Patterson and Thompson, Biometrika 58 (1971) (restricted likelihood); Diggle and Ribeiro, Model-based Geostatistics (2007), ch. 5; memory.
/// More than <see cref="LargestBlock"/> readings fall into blocks of neighbours that are taken as independent of each other
/// (Caragea and Smith, Journal of Multivariate Analysis 98, 2007; memory), halved along the longer side.
/// </remarks>
public sealed class ExponentialField
{
    /// <summary>
    /// Fewest readings from which a correlation is estimated: judgement. The variogram's rule of thumb is 30 pairs a lag (Journel and Huijbregts,
    /// Mining Geostatistics, 1978; memory); 30 readings make 435 pairs.
    /// </summary>
    public const int FewestReadings = 30;

    /// <summary>Most readings whose whole covariance is taken at once: a numerical choice, since the work grows as its cube.</summary>
    public const int LargestBlock = 160;

    // Numerical choices. Lengths: from a third of the nearest distance to the extent is a ratio of about 100 on a deck, so that neighbours differ by a
    // quarter; the peak is then read by a parabola. Nugget: ten golden sections leave 0.618^10 = 0.8 % of the unit interval. Least nugget: keeps
    // readings at one place from a singular covariance.
    private const int Lengths = 22;
    private const int NuggetSteps = 10;
    private const double LeastNugget = 1e-4;

    private readonly List<Block> blocks = [];
    private readonly int count;
    private readonly double shortest;
    private readonly double extent;

    private ExponentialField(double[] x, double[] y, double[] values)
    {
        count = values.Length;
        extent = Math.Sqrt(Square(x.Max() - x.Min()) + Square(y.Max() - y.Min()));
        Split([.. Enumerable.Range(0, count)], x, y, values);
        var nearest = blocks.SelectMany(b => b.Nearest).Where(double.IsFinite).Order().ToArray();
        shortest = nearest.Length == 0 ? double.PositiveInfinity : nearest[nearest.Length / 2];
    }

    /// <summary>Estimates the field.</summary>
    /// <param name="x">First coordinate of each reading.</param>
    /// <param name="y">Second coordinate.</param>
    /// <param name="values">The readings.</param>
    /// <param name="threads">Most threads; 0: as many as the machine has. Never changes a result.</param>
    /// <returns>The estimate; nothing where there are fewer than <see cref="FewestReadings"/>, all alike, or all at one place.</returns>
    /// <exception cref="ArgumentException">The arrays differ in length, or hold what is not finite.</exception>
    public static ExponentialFieldEstimate? Estimate(
        double[] x,
        double[] y,
        double[] values,
        int threads = 0
    )
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        ArgumentNullException.ThrowIfNull(values);
        if (x.Length != values.Length || y.Length != values.Length)
        {
            throw new ArgumentException("Each reading needs both coordinates.", nameof(values));
        }

        if (
            !Array.TrueForAll(x, double.IsFinite)
            || !Array.TrueForAll(y, double.IsFinite)
            || !Array.TrueForAll(values, double.IsFinite)
        )
        {
            throw new ArgumentException("Positions and readings must be finite.", nameof(values));
        }

        if (values.Length < FewestReadings || values.Max() == values.Min())
        {
            return null;
        }

        var field = new ExponentialField(x, y, values);
        return field.extent > 0 && double.IsFinite(field.shortest) ? field.Search(threads) : null;
    }

    private static double Square(double v) => v * v;

    private void Split(int[] members, double[] x, double[] y, double[] values)
    {
        if (members.Length <= LargestBlock)
        {
            blocks.Add(new(members, x, y, values));
            return;
        }

        double Width(double[] at) => members.Max(i => at[i]) - members.Min(i => at[i]);
        var along = Width(x) >= Width(y) ? x : y;
        int[] sorted = [.. members.OrderBy(i => along[i]).ThenBy(i => i)];
        Split(sorted[..(sorted.Length / 2)], x, y, values);
        Split(sorted[(sorted.Length / 2)..], x, y, values);
    }

    private ExponentialFieldEstimate? Search(int threads)
    {
        var first = Math.Log(shortest / 3);
        var step = (Math.Log(extent) - first) / (Lengths - 1);
        var profile = FixedOrderParallel.Map(
            Lengths,
            i => BestNugget(Math.Exp(first + (i * step))),
            threads
        );
        var best = 0;
        for (var i = 1; i < Lengths; i++)
        {
            best = profile[i].LogLikelihood > profile[best].LogLikelihood ? i : best;
        }

        var peak = (double)best;
        if (best > 0 && best < Lengths - 1)
        {
            var left = profile[best].LogLikelihood - profile[best - 1].LogLikelihood;
            var right = profile[best].LogLikelihood - profile[best + 1].LogLikelihood;
            peak += left + right > 0 ? 0.5 * (left - right) / (left + right) : 0;
        }

        var length = Math.Exp(first + (peak * step));
        var top = BestNugget(length);
        if (top.LogLikelihood < profile[best].LogLikelihood)
        {
            (top, length) = (profile[best], Math.Exp(first + (best * step)));
        }

        if (!double.IsFinite(top.LogLikelihood))
        {
            return null;
        }

        var alone = At(length, 1);
        // Signed root of the drop: nearly linear in ln ℓ, so that limits are read between lengths.
        double Drop(int i) =>
            Math.Sqrt(Math.Max(0, 2 * (top.LogLikelihood - profile[i].LogLikelihood)));
        double? Limit(int from, int direction)
        {
            var cut = Math.Sqrt(ExponentialFieldEstimate.Cut);
            double place = (Math.Log(length) - first) / step,
                drop = 0;
            for (var i = from; i >= 0 && i < Lengths; i += direction)
            {
                var next = Drop(i);
                if (next > cut)
                {
                    return Math.Exp(
                        first + (step * (place + ((i - place) * (cut - drop) / (next - drop))))
                    );
                }

                (place, drop) = (i, next);
            }

            return null;
        }

        return new(
            length,
            Limit((int)Math.Ceiling(((Math.Log(length) - first) / step) - 1), -1),
            Limit((int)Math.Floor(((Math.Log(length) - first) / step) + 1), 1),
            top.Nugget,
            top.Variance,
            top.Mean,
            top.MeanStandardError,
            Math.Max(0, 2 * (top.LogLikelihood - alone.LogLikelihood))
        );
    }

    // Golden section over the nugget's share; the ends are tried as well.
    private Fit BestNugget(double length)
    {
        var ratio = (Math.Sqrt(5) - 1) / 2;
        double low = LeastNugget,
            high = 1;
        double a = high - (ratio * (high - low)),
            b = low + (ratio * (high - low));
        Fit atA = At(length, a),
            atB = At(length, b);
        for (var i = 0; i < NuggetSteps; i++)
        {
            if (atA.LogLikelihood >= atB.LogLikelihood)
            {
                (high, b, atB) = (b, a, atA);
                a = high - (ratio * (high - low));
                atA = At(length, a);
            }
            else
            {
                (low, a, atA) = (a, b, atB);
                b = low + (ratio * (high - low));
                atB = At(length, b);
            }
        }

        var best = atA.LogLikelihood >= atB.LogLikelihood ? atA : atB;
        foreach (var end in new[] { LeastNugget, 1 })
        {
            var there = At(length, end);
            best = there.LogLikelihood > best.LogLikelihood ? there : best;
        }

        return best;
    }

    private Fit At(double length, double nugget)
    {
        double logDeterminant = 0,
            ones = 0,
            cross = 0,
            squares = 0;
        foreach (var block in blocks)
        {
            if (!block.Add(length, nugget, ref logDeterminant, ref ones, ref cross, ref squares))
            {
                return new(double.NegativeInfinity, nugget, 0, 0, 0);
            }
        }

        var mean = cross / ones;
        var freedom = count - 1.0;
        var variance = Math.Max(squares - (cross * mean), double.Epsilon) / freedom;
        return new(
            -0.5 * ((freedom * Math.Log(variance)) + logDeterminant + Math.Log(ones)),
            nugget,
            variance,
            mean,
            Math.Sqrt(variance / ones)
        );
    }

    private readonly record struct Fit(
        double LogLikelihood,
        double Nugget,
        double Variance,
        double Mean,
        double MeanStandardError
    );

    private sealed class Block
    {
        private readonly double[] distances;
        private readonly double[] values;
        private readonly int size;

        public Block(int[] members, double[] x, double[] y, double[] all)
        {
            size = members.Length;
            values = [.. members.Select(i => all[i])];
            distances = new double[size * size];
            Nearest = new double[size];
            Array.Fill(Nearest, double.PositiveInfinity);
            for (var i = 0; i < size; i++)
            {
                for (var j = 0; j < i; j++)
                {
                    var d = Math.Sqrt(
                        Square(x[members[i]] - x[members[j]])
                            + Square(y[members[i]] - y[members[j]])
                    );
                    distances[(i * size) + j] = d;
                    if (d > 0)
                    {
                        Nearest[i] = Math.Min(Nearest[i], d);
                        Nearest[j] = Math.Min(Nearest[j], d);
                    }
                }
            }
        }

        /// <summary>Distance of each reading to its nearest neighbour elsewhere.</summary>
        public double[] Nearest { get; }

        public bool Add(
            double length,
            double nugget,
            ref double logDeterminant,
            ref double ones,
            ref double cross,
            ref double squares
        )
        {
            var matrix = new double[size * size];
            for (var i = 0; i < size; i++)
            {
                for (var j = 0; j < i; j++)
                {
                    matrix[(i * size) + j] =
                        (1 - nugget) * Math.Exp(-distances[(i * size) + j] / length);
                }

                matrix[(i * size) + i] = 1;
            }

            if (!SymmetricMatrix.Factor(matrix, size))
            {
                return false;
            }

            var one = new double[size];
            Array.Fill(one, 1);
            var reading = (double[])values.Clone();
            SymmetricMatrix.SolveLower(matrix, size, one);
            SymmetricMatrix.SolveLower(matrix, size, reading);
            logDeterminant += SymmetricMatrix.LogDeterminant(matrix, size);
            for (var i = 0; i < size; i++)
            {
                ones += one[i] * one[i];
                cross += one[i] * reading[i];
                squares += reading[i] * reading[i];
            }

            return true;
        }
    }
}
