using DeckLife.Numerics.DesignOfExperiments;
using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>Elementary effects: the change of an output when one input changes alone, at many places.</summary>
/// <remarks>
/// Equation: d_i = (f(v with v_i + Δ_i) - f(v))/Δ_i with v in the unit cube, x_i the quantile of e + (1 - 2e) v_i, e the edge probability.
/// Source: Morris, Technometrics 33 (1991) 161-174; μ* and the radial layout: Campolongo, Saltelli &amp; Cariboni, Computer Physics
/// Communications 182 (2011) 978-988. Checked by: SensitivityTests, and sensitivity/morris-* of the reference checks.
/// </remarks>
public sealed class MorrisPlan : EvaluationPlan
{
    private const int RepetitionsPerBlock = 64;

    private readonly RandomVector _variables;
    private readonly double[][] _places;
    private readonly int[] _changed;
    private readonly double[] _changes;
    private readonly bool _radial;

    /// <summary>Plans the evaluations.</summary>
    /// <param name="variables">The inputs; independent.</param>
    /// <param name="design">Trajectories or radial.</param>
    /// <param name="repetitions">Number r of trajectories or stars, at least 2; the function is computed r (inputs + 1) times.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="levels">Levels p of the grid of trajectories, even, at least 4; the step is p/(2(p-1)).</param>
    /// <param name="edgeProbability">Probability e left out at each end, from 0 (bounded inputs only) to below 0.5.</param>
    public MorrisPlan(
        RandomVector variables,
        MorrisDesign design,
        int repetitions,
        ulong seed,
        int levels = 4,
        double edgeProbability = 0.01
    )
    {
        ArgumentNullException.ThrowIfNull(variables);
        ArgumentOutOfRangeException.ThrowIfLessThan(repetitions, 2);
        if (levels < 4 || levels % 2 != 0)
        {
            throw new ArgumentOutOfRangeException(
                nameof(levels),
                levels,
                "The grid needs an even number of levels, 4 at least."
            );
        }

        if (!(edgeProbability >= 0 && edgeProbability < 0.5))
        {
            throw new ArgumentOutOfRangeException(
                nameof(edgeProbability),
                edgeProbability,
                "The probability left out at each end lies from 0 to below 0.5."
            );
        }

        if (variables.Copula is { } copula && Linked(copula))
        {
            throw new ArgumentException(
                "Elementary effects change one input alone, which inputs that depend on each other do not: ask for Shapley effects.",
                nameof(variables)
            );
        }

        if (
            edgeProbability == 0
            && variables.Margins.Any(m => !double.IsFinite(m.Lower) || !double.IsFinite(m.Upper))
        )
        {
            throw new ArgumentOutOfRangeException(
                nameof(edgeProbability),
                edgeProbability,
                "An input without bounds has no value at probability 0: leave some probability out at the ends."
            );
        }

        _variables = variables;
        _radial = design == MorrisDesign.Radial;
        Repetitions = repetitions;
        EdgeProbability = edgeProbability;
        var d = variables.Dimensions;
        var rows = repetitions * (d + 1);
        _places = new double[d][];
        for (var i = 0; i < d; i++)
        {
            _places[i] = new double[rows];
        }

        _changed = new int[rows];
        _changes = new double[rows];
        if (_radial)
        {
            PlaceStars(seed);
        }
        else
        {
            PlaceTrajectories(seed, levels);
        }
    }

    /// <summary>Number of trajectories or stars.</summary>
    public int Repetitions { get; }

    /// <summary>Probability left out at each end of every input.</summary>
    public double EdgeProbability { get; }

    /// <inheritdoc/>
    public override int Blocks => FixedOrderParallel.ChunkCount(Repetitions, RepetitionsPerBlock);

    /// <inheritdoc/>
    public override long Evaluations => (long)Repetitions * (_variables.Dimensions + 1);

    /// <inheritdoc/>
    public override EvaluationBlock Points(int block)
    {
        var d = _variables.Dimensions;
        var first = block * RepetitionsPerBlock * (d + 1);
        var count = Math.Min(RepetitionsPerBlock * (d + 1), (Repetitions * (d + 1)) - first);
        var columns = new double[d][];
        for (var i = 0; i < d; i++)
        {
            columns[i] = new double[count];
            var margin = _variables.Margins[i];
            for (var k = 0; k < count; k++)
            {
                var p = EdgeProbability + ((1 - (2 * EdgeProbability)) * _places[i][first + k]);
                columns[i][k] =
                    p <= 0 ? margin.Lower
                    : p >= 1 ? margin.Upper
                    : margin.Quantile(p);
            }
        }

        return new(count, columns);
    }

    /// <summary>The elementary effects from the function's values.</summary>
    /// <param name="values">One array a block, as <see cref="EvaluationPlan.Evaluate"/> gives them.</param>
    public MorrisResult Finish(IReadOnlyList<double[]> values)
    {
        CheckValues(values);
        var d = _variables.Dimensions;
        var y = values.SelectMany(v => v).ToArray();
        var effects = new double[d][];
        for (var i = 0; i < d; i++)
        {
            effects[i] = new double[Repetitions];
        }

        for (var r = 0; r < Repetitions; r++)
        {
            for (var k = 1; k <= d; k++)
            {
                var row = (r * (d + 1)) + k;
                var from = _radial ? r * (d + 1) : row - 1;
                effects[_changed[row]][r] = (y[row] - y[from]) / _changes[row];
            }
        }

        return new()
        {
            HasNoVariance = y.All(v => v == y[0]),
            Inputs = [.. effects.Select(ElementaryEffect.FromEffects)],
        };
    }

    private static bool Linked(GaussianCopula copula)
    {
        for (var i = 1; i < copula.Dimensions; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (copula.Correlation(i, j) != 0)
                {
                    return true;
                }
            }
        }

        return false;
    }

    private void PlaceTrajectories(ulong seed, int levels)
    {
        var d = _variables.Dimensions;
        var step = levels / (2.0 * (levels - 1));
        var order = new int[d];
        for (var r = 0; r < Repetitions; r++)
        {
            var stream = new RandomStream(seed, "trajectories", (ulong)r);
            var row = r * (d + 1);
            for (var i = 0; i < d; i++)
            {
                order[i] = i;
                // Up from the lower half or down from the upper half: each with the same probability.
                var level = stream.NextInteger(levels);
                _places[i][row] = (double)level / (levels - 1);
            }

            for (var i = d - 1; i > 0; i--)
            {
                var j = stream.NextInteger(i + 1);
                (order[i], order[j]) = (order[j], order[i]);
            }

            for (var k = 0; k < d; k++)
            {
                var at = row + k + 1;
                for (var i = 0; i < d; i++)
                {
                    _places[i][at] = _places[i][at - 1];
                }

                var input = order[k];
                var up = _places[input][at] < 0.5;
                _changes[at] = up ? step : -step;
                _places[input][at] = Math.Clamp(_places[input][at] + _changes[at], 0, 1);
                _changed[at] = input;
            }
        }
    }

    private void PlaceStars(ulong seed)
    {
        var d = _variables.Dimensions;
        var size = (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Repetitions);
        var points = UnitPointSet.Make(
            2 * d <= RandomlyShiftedLattice.GeneratingVector.Length
                ? PointSource.Lattice
                : PointSource.LatinHypercube,
            size,
            2 * d,
            seed,
            "stars"
        );
        for (var r = 0; r < Repetitions; r++)
        {
            var row = r * (d + 1);
            for (var k = 0; k <= d; k++)
            {
                for (var i = 0; i < d; i++)
                {
                    _places[i][row + k] = points[i][r];
                }

                if (k > 0)
                {
                    // A ray too short would divide rounding by little: it is turned to the other half of the cube.
                    var end = points[d + k - 1][r];
                    var start = points[k - 1][r];
                    if (Math.Abs(end - start) < 1e-3)
                    {
                        end = start < 0.5 ? start + 0.5 : start - 0.5;
                    }

                    _places[k - 1][row + k] = end;
                    _changes[row + k] = end - start;
                    _changed[row + k] = k - 1;
                }
            }
        }
    }
}
