using MathNet.Numerics.LinearAlgebra;

namespace DeckLife.Numerics.Distributions;

/// <summary>Dependence of several variables through correlated standard normal scores.</summary>
/// <remarks>
/// Equation: z = L u with u independent standard normal and L Lᵀ the correlation of the scores; x_i = F_i⁻¹(Φ(z_i)).
/// A rank correlation (Spearman) r needs the score correlation 2 sin(π r/6) (Pearson's relation for the normal copula).
/// Checked by: GaussianCopulaTests.
/// </remarks>
public sealed class GaussianCopula
{
    private readonly double[,] _correlation;
    private readonly double[,] _root;

    private GaussianCopula(double[,] correlation, double[,] root, bool repaired)
    {
        _correlation = correlation;
        _root = root;
        WasRepaired = repaired;
    }

    /// <summary>Number of variables.</summary>
    public int Dimensions => _root.GetLength(0);

    /// <summary>Whether the matrix given was not valid and the nearest valid one was taken.</summary>
    public bool WasRepaired { get; }

    /// <summary>From the correlations of the normal scores.</summary>
    /// <param name="correlation">Symmetric, ones on the diagonal; shape [n × n].</param>
    /// <param name="repair">Whether to take the nearest valid matrix where this one is not positive definite.</param>
    /// <exception cref="ArgumentException">Not symmetric, not a correlation, or not positive definite and no repair asked for.</exception>
    public static GaussianCopula FromScoreCorrelation(double[,] correlation, bool repair = false)
    {
        ArgumentNullException.ThrowIfNull(correlation);
        var n = correlation.GetLength(0);
        if (correlation.GetLength(1) != n || n == 0)
        {
            throw new ArgumentException("A square matrix is needed.", nameof(correlation));
        }

        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                var value = correlation[i, j];
                if (value != correlation[j, i] || !(Math.Abs(value) <= 1) || (i == j && value != 1))
                {
                    throw new ArgumentException(
                        $"Element ({i + 1}, {j + 1}) is no correlation: the matrix must be symmetric with ones on the diagonal and values from -1 to 1.",
                        nameof(correlation)
                    );
                }
            }
        }

        if (TryRoot(correlation, out var root))
        {
            return new((double[,])correlation.Clone(), root, repaired: false);
        }

        if (!repair)
        {
            throw new ArgumentException(
                "The correlations contradict each other: the matrix is not positive definite. Correct them, or ask for the nearest valid matrix.",
                nameof(correlation)
            );
        }

        var nearest = NearestCorrelation.Find(correlation);
        if (!TryRoot(nearest, out root))
        {
            throw new ArgumentException(
                "No valid matrix was found near this one.",
                nameof(correlation)
            );
        }

        return new(nearest, root, repaired: true);
    }

    /// <summary>From rank correlations (Spearman).</summary>
    /// <param name="rankCorrelation">Symmetric, ones on the diagonal; shape [n × n].</param>
    /// <param name="repair">Whether to take the nearest valid matrix where the scores' one is not positive definite.</param>
    public static GaussianCopula FromRankCorrelation(double[,] rankCorrelation, bool repair = false)
    {
        ArgumentNullException.ThrowIfNull(rankCorrelation);
        var scores = (double[,])rankCorrelation.Clone();
        for (var i = 0; i < scores.GetLength(0); i++)
        {
            for (var j = 0; j < scores.GetLength(1); j++)
            {
                scores[i, j] =
                    rankCorrelation[i, j] == 1
                        ? 1
                        : 2 * Math.Sin(Math.PI * rankCorrelation[i, j] / 6);
            }
        }

        return FromScoreCorrelation(scores, repair);
    }

    /// <summary>The correlation of the scores of two variables.</summary>
    /// <param name="i">One variable, from 0.</param>
    /// <param name="j">The other.</param>
    public double Correlation(int i, int j) => _correlation[i, j];

    /// <summary>Whether two variables, directly or through others, depend on each other.</summary>
    /// <param name="i">One variable, from 0.</param>
    /// <param name="j">The other.</param>
    public bool AreLinked(int i, int j)
    {
        var reached = new bool[Dimensions];
        var open = new Stack<int>([i]);
        reached[i] = true;
        while (open.TryPop(out var at))
        {
            for (var k = 0; k < Dimensions; k++)
            {
                if (!reached[k] && _correlation[at, k] != 0)
                {
                    reached[k] = true;
                    open.Push(k);
                }
            }
        }

        return reached[j];
    }

    /// <summary>Correlated scores of one point.</summary>
    /// <param name="independent">Independent scores u.</param>
    /// <param name="scores">Receives z; not the same span.</param>
    public void Correlate(ReadOnlySpan<double> independent, Span<double> scores)
    {
        for (var i = 0; i < Dimensions; i++)
        {
            var sum = 0.0;
            for (var j = 0; j <= i; j++)
            {
                sum += _root[i, j] * independent[j];
            }

            scores[i] = sum;
        }
    }

    /// <summary>Independent scores of one point: the inverse of <see cref="Correlate(ReadOnlySpan{double}, Span{double})"/>.</summary>
    /// <param name="scores">Correlated scores z.</param>
    /// <param name="independent">Receives u; not the same span.</param>
    public void Decorrelate(ReadOnlySpan<double> scores, Span<double> independent)
    {
        for (var i = 0; i < Dimensions; i++)
        {
            var sum = scores[i];
            for (var j = 0; j < i; j++)
            {
                sum -= _root[i, j] * independent[j];
            }

            independent[i] = sum / _root[i, i];
        }
    }

    /// <summary>Correlated scores of many points, in place.</summary>
    /// <param name="count">Number of points.</param>
    /// <param name="columns">One array a variable: independent scores before, correlated ones after.</param>
    public void Correlate(int count, double[][] columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        // From the last row up: row i needs the independent scores of the rows up to i.
        for (var i = Dimensions - 1; i >= 0; i--)
        {
            var target = columns[i].AsSpan(0, count);
            for (var k = 0; k < target.Length; k++)
            {
                target[k] *= _root[i, i];
            }

            for (var j = 0; j < i; j++)
            {
                var weight = _root[i, j];
                if (weight == 0)
                {
                    continue;
                }

                var source = columns[j].AsSpan(0, count);
                for (var k = 0; k < target.Length; k++)
                {
                    target[k] += weight * source[k];
                }
            }
        }
    }

    /// <summary>The law of some scores given the others: normal, mean M z_given, covariance S Sᵀ.</summary>
    /// <param name="free">Variables that are drawn.</param>
    /// <param name="given">Variables that are known.</param>
    /// <returns>M, shape [free × given], and the lower triangular S, shape [free × free].</returns>
    internal (double[,] Gain, double[,] Root) Conditional(int[] free, int[] given)
    {
        var all = Matrix<double>.Build.DenseOfArray(_correlation);
        Matrix<double> Part(int[] rows, int[] columns) =>
            Matrix<double>.Build.Dense(
                rows.Length,
                columns.Length,
                (i, j) => all[rows[i], columns[j]]
            );
        var own = Part(free, free);
        if (given.Length == 0)
        {
            return (new double[free.Length, 0], own.Cholesky().Factor.ToArray());
        }

        var cross = Part(free, given);
        var gain = Part(given, given).Cholesky().Solve(cross.Transpose()).Transpose();
        var covariance = own - (gain * cross.Transpose());
        covariance = (covariance + covariance.Transpose()) / 2;
        return (gain.ToArray(), covariance.Cholesky().Factor.ToArray());
    }

    private static bool TryRoot(double[,] correlation, out double[,] root)
    {
        var n = correlation.GetLength(0);
        root = new double[n, n];
        for (var j = 0; j < n; j++)
        {
            var pivot = correlation[j, j];
            for (var k = 0; k < j; k++)
            {
                pivot -= root[j, k] * root[j, k];
            }

            if (!(pivot > 1e-10))
            {
                return false;
            }

            root[j, j] = Math.Sqrt(pivot);
            for (var i = j + 1; i < n; i++)
            {
                var sum = correlation[i, j];
                for (var k = 0; k < j; k++)
                {
                    sum -= root[i, k] * root[j, k];
                }

                root[i, j] = sum / root[j, j];
            }
        }

        return true;
    }
}
