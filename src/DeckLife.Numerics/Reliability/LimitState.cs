using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sensitivity;

namespace DeckLife.Numerics.Reliability;

/// <summary>A limit state function of random variables, seen from independent standard normal scores: failure is g ≤ 0.</summary>
public sealed class LimitState
{
    private readonly BatchFunction _function;

    /// <summary>Makes the limit state from a function of many points.</summary>
    /// <param name="variables">The random variables.</param>
    /// <param name="function">g of the variables' values.</param>
    public LimitState(RandomVector variables, BatchFunction function)
    {
        ArgumentNullException.ThrowIfNull(variables);
        ArgumentNullException.ThrowIfNull(function);
        Variables = variables;
        _function = function;
    }

    /// <summary>Makes the limit state from a function of one point.</summary>
    /// <param name="variables">The random variables.</param>
    /// <param name="function">g of the variables' values.</param>
    public LimitState(RandomVector variables, Func<double[], double> function)
        : this(variables, OnePointAfterTheOther(function)) { }

    /// <summary>The random variables.</summary>
    public RandomVector Variables { get; }

    /// <summary>Number of variables.</summary>
    public int Dimensions => Variables.Dimensions;

    /// <summary>g at many points.</summary>
    /// <param name="count">Number of points.</param>
    /// <param name="scores">One array a variable: independent scores before, values of the variables after.</param>
    /// <param name="results">Receives g.</param>
    public void Evaluate(int count, double[][] scores, double[] results)
    {
        Variables.ToValues(count, scores);
        _function(count, scores, results);
    }

    /// <summary>g and its gradient in the scores at one point.</summary>
    /// <param name="scores">Independent scores u.</param>
    /// <param name="gradient">Receives ∂g/∂u.</param>
    /// <returns>g(u); not a number where the function gave none there or beside it.</returns>
    /// <remarks>Four-point central differences, step 1e-3: relative error near 1e-12 for a smooth g of order 1.</remarks>
    public double ValueAndGradient(ReadOnlySpan<double> scores, Span<double> gradient)
    {
        const double H = 1e-3;
        var n = Dimensions;
        var count = (4 * n) + 1;
        var columns = new double[n][];
        for (var d = 0; d < n; d++)
        {
            columns[d] = new double[count];
            Array.Fill(columns[d], scores[d]);
            for (var k = 0; k < 4; k++)
            {
                columns[d][1 + (4 * d) + k] += (k < 2 ? k - 2 : k - 1) * H;
            }
        }

        var g = new double[count];
        Evaluate(count, columns, g);
        for (var d = 0; d < n; d++)
        {
            var at = 1 + (4 * d);
            gradient[d] = (g[at] - (8 * g[at + 1]) + (8 * g[at + 2]) - g[at + 3]) / (12 * H);
            if (!double.IsFinite(gradient[d]))
            {
                return double.NaN;
            }
        }

        return g[0];
    }

    /// <summary>g at one point.</summary>
    /// <param name="scores">Independent scores u.</param>
    public double Value(ReadOnlySpan<double> scores)
    {
        var columns = new double[Dimensions][];
        for (var d = 0; d < columns.Length; d++)
        {
            columns[d] = [scores[d]];
        }

        var g = new double[1];
        Evaluate(1, columns, g);
        return g[0];
    }

    private static BatchFunction OnePointAfterTheOther(Func<double[], double> function)
    {
        ArgumentNullException.ThrowIfNull(function);
        return (count, inputs, outputs) =>
        {
            var x = new double[inputs.Length];
            for (var i = 0; i < count; i++)
            {
                for (var d = 0; d < x.Length; d++)
                {
                    x[d] = inputs[d][i];
                }

                outputs[i] = function(x);
            }
        };
    }
}
