using DeckLife.Numerics.DesignOfExperiments;
using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>Shapley effects of inputs that may depend on each other, over all sets of inputs.</summary>
/// <remarks>
/// Equation: Sh_i V = Σ_{J without i} |J|! (d-1-|J|)!/d! (c(J + i) - c(J)), c(J) = E Var(Y | all but J) = E (Y - Y_J)²/2, Y_J with the inputs J drawn anew given the others.
/// Source: Owen, SIAM/ASA Journal on Uncertainty Quantification 2 (2014) 245-251; Song, Nelson &amp; Staum, same journal 4 (2016) 1060-1083.
/// Dependence is that of the Gaussian copula, whose conditional law is exact. Checked by: SensitivityTests (linear case in closed form).
/// </remarks>
public sealed class ShapleyPlan : EvaluationPlan
{
    /// <summary>Most inputs: each more doubles the work.</summary>
    public const int MostInputs = 10;

    private const int PointsPerBlock = 64;

    private readonly RandomVector _variables;
    private readonly double[][] _points;
    private readonly (int[] Free, int[] Given, double[,] Gain, double[,] Root)[] _sets;
    private readonly ulong _seed;

    /// <summary>Plans the evaluations.</summary>
    /// <param name="variables">The inputs, 10 at most.</param>
    /// <param name="points">Number of points N, at least 16, for a lattice a power of 2 up to 2^18; the function is computed N 2^inputs times.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="source">Where the points come from.</param>
    /// <exception cref="ArgumentOutOfRangeException">Too many inputs, too few points, or a number of points that the source cannot give.</exception>
    public ShapleyPlan(
        RandomVector variables,
        int points,
        ulong seed,
        PointSource source = PointSource.Lattice
    )
    {
        ArgumentNullException.ThrowIfNull(variables);
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 16);
        var d = variables.Dimensions;
        if (d > MostInputs)
        {
            throw new ArgumentOutOfRangeException(
                nameof(variables),
                d,
                "Shapley effects over all sets take 10 inputs at most: hold the weak ones fixed (elementary effects tell which)."
            );
        }

        _variables = variables;
        _seed = seed;
        Count = points;
        _points = UnitPointSet.Make(source, points, 2 * d, seed, "Shapley effects");
        foreach (var column in _points)
        {
            NormalQuantile.At(column, column);
        }

        var identity = new double[d, d];
        for (var i = 0; i < d; i++)
        {
            identity[i, i] = 1;
        }

        var copula = variables.Copula ?? GaussianCopula.FromScoreCorrelation(identity);
        _sets =
        [
            .. Enumerable
                .Range(1, (1 << d) - 1)
                .Select(set =>
                {
                    int[] free = [.. Enumerable.Range(0, d).Where(i => (set >> i & 1) == 1)];
                    int[] given = [.. Enumerable.Range(0, d).Where(i => (set >> i & 1) == 0)];
                    var (gain, root) = copula.Conditional(free, given);
                    return (free, given, gain, root);
                }),
        ];
    }

    /// <summary>Number of points N.</summary>
    public int Count { get; }

    /// <inheritdoc/>
    public override int Blocks => FixedOrderParallel.ChunkCount(Count, PointsPerBlock);

    /// <inheritdoc/>
    public override long Evaluations => (long)Count * (_sets.Length + 1);

    /// <inheritdoc/>
    public override EvaluationBlock Points(int block)
    {
        var d = _variables.Dimensions;
        var first = block * PointsPerBlock;
        var size = Math.Min(PointsPerBlock, Count - first);
        var count = size * (_sets.Length + 1);
        var columns = new double[d][];
        for (var i = 0; i < d; i++)
        {
            columns[i] = new double[count];
        }

        var scores = new double[d];
        var independent = new double[d];
        for (var p = 0; p < size; p++)
        {
            for (var i = 0; i < d; i++)
            {
                independent[i] = _points[i][first + p];
            }

            if (_variables.Copula is { } copula)
            {
                copula.Correlate(independent, scores);
            }
            else
            {
                independent.CopyTo(scores, 0);
            }

            for (var i = 0; i < d; i++)
            {
                columns[i][p] = scores[i];
            }

            for (var s = 0; s < _sets.Length; s++)
            {
                var (free, given, gain, root) = _sets[s];
                var row = ((s + 1) * size) + p;
                for (var i = 0; i < d; i++)
                {
                    columns[i][row] = scores[i];
                }

                for (var i = 0; i < free.Length; i++)
                {
                    var z = 0.0;
                    for (var j = 0; j < given.Length; j++)
                    {
                        z += gain[i, j] * scores[given[j]];
                    }

                    for (var j = 0; j <= i; j++)
                    {
                        z += root[i, j] * _points[d + free[j]][first + p];
                    }

                    columns[free[i]][row] = z;
                }
            }
        }

        for (var i = 0; i < d; i++)
        {
            _variables.Margins[i].FromStandardNormal(columns[i], columns[i]);
        }

        return new(count, columns);
    }

    /// <summary>The effects from the function's values.</summary>
    /// <param name="values">One array a block, as <see cref="EvaluationPlan.Evaluate"/> gives them.</param>
    /// <param name="bootstrap">Number of bootstrap samples for the limits, at least 100.</param>
    /// <param name="threads">Number of threads, 0 for all; the result is the same for any.</param>
    public ShapleyResult Finish(
        IReadOnlyList<double[]> values,
        int bootstrap = 500,
        int threads = 0
    )
    {
        CheckValues(values);
        ArgumentOutOfRangeException.ThrowIfLessThan(bootstrap, 100);
        var halves = HalfSquares(values);
        var estimate = Estimate(halves, null);
        var variance = estimate.Variance;
        if (!(variance > 0) || values.All(v => v.All(x => x == values[0][0])))
        {
            return new()
            {
                Variance = 0,
                HasNoVariance = true,
                Effects = [],
            };
        }

        var replicates = FixedOrderParallel.Map(
            bootstrap,
            b =>
            {
                var stream = new RandomStream(_seed, "bootstrap of Shapley effects", (ulong)b);
                var rows = new int[Count];
                for (var i = 0; i < Count; i++)
                {
                    rows[i] = stream.NextInteger(Count);
                }

                return Estimate(halves, rows).Effects;
            },
            threads
        );
        return new()
        {
            Variance = variance,
            HasNoVariance = false,
            Effects =
            [
                .. estimate.Effects.Select(
                    (value, i) =>
                    {
                        var sorted = replicates
                            .Select(r => r[i])
                            .Where(double.IsFinite)
                            .Order()
                            .ToArray();
                        var lower = SortedPercentile.At(sorted, 0.025);
                        return new SobolIndex(
                            value,
                            lower,
                            SortedPercentile.At(sorted, 0.975),
                            lower > 0
                        );
                    }
                ),
            ],
        };
    }

    // (Y - Y_J)²/2 of every point, one row a set.
    private double[][] HalfSquares(IReadOnlyList<double[]> values)
    {
        var halves = new double[_sets.Length][];
        for (var s = 0; s < halves.Length; s++)
        {
            halves[s] = new double[Count];
            for (var block = 0; block < values.Count; block++)
            {
                var size = values[block].Length / (_sets.Length + 1);
                for (var p = 0; p < size; p++)
                {
                    var change = values[block][((s + 1) * size) + p] - values[block][p];
                    halves[s][(block * PointsPerBlock) + p] = 0.5 * change * change;
                }
            }
        }

        return halves;
    }

    private (double Variance, double[] Effects) Estimate(double[][] halves, int[]? rows)
    {
        var d = _variables.Dimensions;
        var cost = new double[halves.Length + 1];
        for (var s = 0; s < halves.Length; s++)
        {
            var sum = 0.0;
            for (var i = 0; i < Count; i++)
            {
                sum += halves[s][rows?[i] ?? i];
            }

            cost[s + 1] = sum / Count;
        }

        var effects = new double[d];
        for (var i = 0; i < d; i++)
        {
            for (var set = 0; set < cost.Length; set++)
            {
                if ((set >> i & 1) == 0)
                {
                    var size = System.Numerics.BitOperations.PopCount((uint)set);
                    effects[i] += Weight(size, d) * (cost[set | (1 << i)] - cost[set]) / cost[^1];
                }
            }
        }

        return (cost[^1], effects);
    }

    // |J|! (d-1-|J|)!/d! = 1/(d C(d-1, |J|)).
    private static double Weight(int size, int d)
    {
        var ways = 1.0;
        for (var k = 1; k <= size; k++)
        {
            ways *= (double)(d - k) / k;
        }

        return 1 / (d * ways);
    }
}
