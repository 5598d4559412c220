using System.Collections.Immutable;
using DeckLife.Numerics.DesignOfExperiments;
using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>First-order and total variance shares by two samples and their mixtures.</summary>
/// <remarks>
/// Equation: with samples A, B and A_g (A with group g from B): S_g V = mean f_B (f_Ag - f_A); T_g V = mean (f_A - f_Ag)²/2.
/// Source: Saltelli et al., Computer Physics Communications 181 (2010) 259-270, table 2 (b); Jansen, same journal 117 (1999) 35-43.
/// Limits: percentiles of 95 % of bootstrap samples of the points; with a lattice they are wider than the error is, since the points are evener than random ones.
/// Checked by: SensitivityTests, and sensitivity/* of the reference checks.
/// </remarks>
public sealed class SobolPlan : EvaluationPlan
{
    private const int PointsPerBlock = 256;

    private readonly RandomVector _variables;
    private readonly double[][] _points;
    private readonly int[][] _groups;
    private readonly ulong _seed;

    /// <summary>Plans the evaluations.</summary>
    /// <param name="variables">The inputs.</param>
    /// <param name="points">Number of points N, at least 16, for a lattice a power of 2 up to 2^18; the function is computed N (groups + 2) times.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="source">Where the points come from.</param>
    /// <param name="groups">Numbers of the inputs of each group, each input once; absent: every input by itself.</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few points, a number of them that the source cannot give, or a lattice for more than 16 inputs (32 coordinates).</exception>
    /// <exception cref="ArgumentException">Groups that leave out or repeat an input, or that part inputs which depend on each other.</exception>
    public SobolPlan(
        RandomVector variables,
        int points,
        ulong seed,
        PointSource source = PointSource.Lattice,
        IEnumerable<IEnumerable<int>>? groups = null
    )
    {
        ArgumentNullException.ThrowIfNull(variables);
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 16);
        _variables = variables;
        _seed = seed;
        var d = variables.Dimensions;
        _groups = groups is null
            ? [.. Enumerable.Range(0, d).Select(i => new[] { i })]
            : [.. groups.Select(g => g.ToArray())];
        if (!_groups.SelectMany(g => g).Order().SequenceEqual(Enumerable.Range(0, d)))
        {
            throw new ArgumentException("Each input must stand in one group.", nameof(groups));
        }

        if (variables.Copula is { } copula)
        {
            for (var a = 0; a < _groups.Length; a++)
            {
                for (var b = a + 1; b < _groups.Length; b++)
                {
                    if (_groups[a].Any(i => _groups[b].Any(j => copula.AreLinked(i, j))))
                    {
                        throw new ArgumentException(
                            "Inputs that depend on each other must stand in one group: variance shares of dependent inputs do not add up. Group them, or ask for Shapley effects.",
                            nameof(groups)
                        );
                    }
                }
            }
        }

        Count = points;
        _points = UnitPointSet.Make(source, points, 2 * d, seed, "variance shares");
        foreach (var column in _points)
        {
            NormalQuantile.At(column, column);
        }
    }

    /// <summary>Number of points N.</summary>
    public int Count { get; }

    /// <summary>The groups.</summary>
    public ImmutableArray<ImmutableArray<int>> Groups =>
        [.. _groups.Select(g => g.ToImmutableArray())];

    /// <inheritdoc/>
    public override int Blocks => FixedOrderParallel.ChunkCount(Count, PointsPerBlock);

    /// <inheritdoc/>
    public override long Evaluations => (long)Count * (_groups.Length + 2);

    /// <inheritdoc/>
    public override EvaluationBlock Points(int block)
    {
        var d = _variables.Dimensions;
        var first = block * PointsPerBlock;
        var size = Math.Min(PointsPerBlock, Count - first);
        var count = size * (_groups.Length + 2);
        var columns = new double[d][];
        for (var i = 0; i < d; i++)
        {
            columns[i] = new double[count];
            var a = _points[i].AsSpan(first, size);
            var b = _points[d + i].AsSpan(first, size);
            a.CopyTo(columns[i]);
            b.CopyTo(columns[i].AsSpan(size));
            for (var g = 0; g < _groups.Length; g++)
            {
                (_groups[g].Contains(i) ? b : a).CopyTo(columns[i].AsSpan((g + 2) * size));
            }
        }

        _variables.ToValues(count, columns);
        return new(count, columns);
    }

    /// <summary>The shares from the function's values.</summary>
    /// <param name="values">One array a block, as <see cref="EvaluationPlan.Evaluate"/> gives them.</param>
    /// <param name="bootstrap">Number of bootstrap samples, at least 100.</param>
    /// <param name="threads">Number of threads, 0 for all; the result is the same for any.</param>
    public SobolResult Finish(IReadOnlyList<double[]> values, int bootstrap = 1000, int threads = 0)
    {
        CheckValues(values);
        ArgumentOutOfRangeException.ThrowIfLessThan(bootstrap, 100);
        var table = Unpack(values);
        var estimate = Estimate(table, Count, null);
        if (HasNoVariance(table, estimate))
        {
            return new()
            {
                Mean = estimate.Mean,
                Variance = 0,
                HasNoVariance = true,
                Groups = [],
                Convergence = [],
            };
        }

        var replicates = FixedOrderParallel.Map(
            bootstrap,
            b =>
            {
                var stream = new RandomStream(_seed, "bootstrap of variance shares", (ulong)b);
                var rows = new int[Count];
                for (var i = 0; i < rows.Length; i++)
                {
                    rows[i] = stream.NextInteger(Count);
                }

                return Estimate(table, Count, rows);
            },
            threads
        );
        return new()
        {
            Mean = estimate.Mean,
            Variance = estimate.Variance,
            HasNoVariance = false,
            Groups =
            [
                .. _groups.Select(
                    (inputs, g) =>
                        new SobolGroupResult(
                            [.. inputs],
                            Index(estimate.First[g], replicates.Select(r => r.First[g])),
                            // Jansen's estimate is a mean of squares: it is 0 only where the group changes nothing at all.
                            Index(estimate.Total[g], replicates.Select(r => r.Total[g]))
                        )
                ),
            ],
            Convergence =
            [
                .. new[] { Count / 4, Count / 2, Count }
                    .Where(n => n >= 8)
                    .Select(n => (n, At: Estimate(table, n, null)))
                    .Where(row => row.At.Variance > 0)
                    .Select(row => new SobolConvergenceRow(
                        row.n,
                        [.. row.At.First],
                        [.. row.At.Total]
                    )),
            ],
        };
    }

    private static SobolIndex Index(double value, IEnumerable<double> replicates)
    {
        var sorted = replicates.Where(double.IsFinite).Order().ToArray();
        var lower = SortedPercentile.At(sorted, 0.025);
        return new(value, lower, SortedPercentile.At(sorted, 0.975), lower > 0);
    }

    private static bool HasNoVariance(double[][] table, Shares estimate)
    {
        var all = table.SelectMany(v => v);
        var low = all.Min();
        var high = all.Max();
        return high - low <= 1e-13 * Math.Max(Math.Abs(low), Math.Abs(high))
            || estimate.Variance <= 0;
    }

    // One row a sample: A, B, then the mixtures.
    private double[][] Unpack(IReadOnlyList<double[]> values)
    {
        var table = new double[_groups.Length + 2][];
        for (var k = 0; k < table.Length; k++)
        {
            table[k] = new double[Count];
            for (var block = 0; block < values.Count; block++)
            {
                var size = values[block].Length / table.Length;
                values[block]
                    .AsSpan(k * size, size)
                    .CopyTo(table[k].AsSpan(block * PointsPerBlock));
            }
        }

        return table;
    }

    private Shares Estimate(double[][] table, int count, int[]? rows)
    {
        double sum = 0,
            squares = 0;
        var origin = table[0][0];
        for (var i = 0; i < count; i++)
        {
            var row = rows?[i] ?? i;
            var a = table[0][row] - origin;
            var b = table[1][row] - origin;
            sum += a + b;
            squares += (a * a) + (b * b);
        }

        var shift = sum / (2.0 * count);
        var variance = (squares / (2.0 * count)) - (shift * shift);
        var mean = origin + shift;
        var first = new double[_groups.Length];
        var total = new double[_groups.Length];
        for (var g = 0; g < first.Length; g++)
        {
            double product = 0,
                difference = 0;
            for (var i = 0; i < count; i++)
            {
                var row = rows?[i] ?? i;
                var change = table[g + 2][row] - table[0][row];
                product += (table[1][row] - mean) * change;
                difference += change * change;
            }

            first[g] = product / count / variance;
            total[g] = 0.5 * difference / count / variance;
        }

        return new(mean, variance, first, total);
    }

    private sealed record Shares(double Mean, double Variance, double[] First, double[] Total);
}
