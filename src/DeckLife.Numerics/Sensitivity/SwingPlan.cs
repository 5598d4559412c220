using DeckLife.Numerics.Distributions;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>One-at-a-time swings: each input at a low and a high quantile, the others at their medians.</summary>
/// <remarks>They see neither interactions nor dependence: a first look. Checked by: SensitivityTests.</remarks>
public sealed class SwingPlan : EvaluationPlan
{
    private readonly RandomVector _variables;
    private readonly double _low;
    private readonly double _high;

    /// <summary>Plans the evaluations.</summary>
    /// <param name="variables">The inputs.</param>
    /// <param name="low">Probability of the low quantile.</param>
    /// <param name="high">Probability of the high quantile, above <paramref name="low"/>.</param>
    public SwingPlan(RandomVector variables, double low = 0.1, double high = 0.9)
    {
        ArgumentNullException.ThrowIfNull(variables);
        if (!(low > 0 && low < high && high < 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(low),
                low,
                "The two probabilities must lie between 0 and 1, the low one first."
            );
        }

        _variables = variables;
        _low = low;
        _high = high;
    }

    /// <inheritdoc/>
    public override int Blocks => 1;

    /// <inheritdoc/>
    public override long Evaluations => (2L * _variables.Dimensions) + 1;

    /// <inheritdoc/>
    public override EvaluationBlock Points(int block)
    {
        var d = _variables.Dimensions;
        var columns = new double[d][];
        for (var i = 0; i < d; i++)
        {
            columns[i] = new double[(2 * d) + 1];
            Array.Fill(columns[i], _variables.Margins[i].Quantile(0.5));
            columns[i][1 + (2 * i)] = _variables.Margins[i].Quantile(_low);
            columns[i][2 + (2 * i)] = _variables.Margins[i].Quantile(_high);
        }

        return new((2 * d) + 1, columns);
    }

    /// <summary>The swings from the function's values.</summary>
    /// <param name="values">One array a block, as <see cref="EvaluationPlan.Evaluate"/> gives them.</param>
    public SwingResult Finish(IReadOnlyList<double[]> values)
    {
        CheckValues(values);
        var y = values[0];
        return new()
        {
            AtMedians = y[0],
            HasNoVariance = y.All(v => v == y[0]),
            Swings =
            [
                .. Enumerable
                    .Range(0, _variables.Dimensions)
                    .Select(i => new Swing(
                        i,
                        _variables.Margins[i].Quantile(_low),
                        _variables.Margins[i].Quantile(_high),
                        y[1 + (2 * i)],
                        y[2 + (2 * i)]
                    ))
                    .OrderByDescending(s => Math.Abs(s.Change))
                    .ThenBy(s => s.Input),
            ],
        };
    }
}
