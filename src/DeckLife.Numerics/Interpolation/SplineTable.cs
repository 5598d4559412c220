using System.Numerics;
using System.Runtime.InteropServices;

namespace DeckLife.Numerics.Interpolation;

/// <summary>Rows of values on a grid of three variables, read in between by cubic splines: one reading gives a whole row.</summary>
/// <remarks>
/// Immutable. Kept in single precision: the error of that, 1e-7 of the largest value, is far below any spline's. Every value of a row is computed by
/// the same correctly rounded operations in the same order, so that the width of the vectors doesn't matter. Checked by: SplineTableTests.
/// </remarks>
public sealed class SplineTable
{
    private const int Most = 16;

    private readonly SplineBasis[] bases;
    private readonly float[] coefficients;
    private readonly int stride;

    /// <summary>Fits the splines.</summary>
    /// <param name="nodes">Number of nodes of each of the three variables: 1 (it does not matter then), or at least 4.</param>
    /// <param name="row">Values a row.</param>
    /// <param name="values">Values at the nodes, the last variable's fastest, shape [nodes × nodes × nodes × row].</param>
    /// <exception cref="ArgumentException">The shapes do not fit.</exception>
    public SplineTable(ReadOnlySpan<int> nodes, int row, double[] values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (
            nodes.Length != 3
            || row < 1
            || values.LongLength != (long)nodes[0] * nodes[1] * nodes[2] * row
        )
        {
            throw new ArgumentException(
                "Three numbers of nodes, and one row of values for each node are needed.",
                nameof(nodes)
            );
        }

        bases = [new(nodes[0]), new(nodes[1]), new(nodes[2])];
        RowLength = row;
        stride = (row + Most - 1) / Most * Most;
        var wide = Along(bases[2], values, nodes[0] * nodes[1], row);
        wide = Along(bases[1], wide, nodes[0], bases[2].Coefficients * row);
        wide = Along(bases[0], wide, 1, bases[1].Coefficients * bases[2].Coefficients * row);
        coefficients = new float[wide.Length / row * stride];
        for (var k = 0; k < wide.Length / row; k++)
        {
            for (var j = 0; j < row; j++)
            {
                coefficients[(k * stride) + j] = (float)wide[(k * row) + j];
            }
        }
    }

    /// <summary>Values a row.</summary>
    public int RowLength { get; }

    /// <summary>Room that a reading needs: the row's values, then some that mean nothing.</summary>
    public int Room => stride;

    /// <summary>Reads a row.</summary>
    /// <param name="first">Place in the first variable, in units of nodes, from 0 to the last node.</param>
    /// <param name="second">Place in the second.</param>
    /// <param name="third">Place in the third.</param>
    /// <param name="result">Receives the row; at least <see cref="Room"/> long.</param>
    public void Read(double first, double second, double third, Span<float> result)
    {
        Span<float> weights = stackalloc float[12];
        var at0 = bases[0].At(first, weights);
        var at1 = bases[1].At(second, weights[4..]);
        var at2 = bases[2].At(third, weights[8..]);
        var (n0, n1, n2) = (bases[0].Support, bases[1].Support, bases[2].Support);
        var sums = MemoryMarshal.Cast<float, Vector<float>>(result[..stride]);
        sums.Clear();
        for (var i = 0; i < n0; i++)
        {
            for (var j = 0; j < n1; j++)
            {
                var outer = weights[i] * weights[4 + j];
                var from =
                    (
                        ((((at0 + i) * bases[1].Coefficients) + at1 + j) * bases[2].Coefficients)
                        + at2
                    ) * stride;
                var rows = MemoryMarshal.Cast<float, Vector<float>>(
                    coefficients.AsSpan(from, n2 * stride)
                );
                if (n2 == 4)
                {
                    var w0 = new Vector<float>(outer * weights[8]);
                    var w1 = new Vector<float>(outer * weights[9]);
                    var w2 = new Vector<float>(outer * weights[10]);
                    var w3 = new Vector<float>(outer * weights[11]);
                    for (var k = 0; k < sums.Length; k++)
                    {
                        sums[k] +=
                            ((w0 * rows[k]) + (w1 * rows[k + sums.Length]))
                            + (
                                (w2 * rows[k + (2 * sums.Length)])
                                + (w3 * rows[k + (3 * sums.Length)])
                            );
                    }
                }
                else
                {
                    var w = new Vector<float>(outer);
                    for (var k = 0; k < sums.Length; k++)
                    {
                        sums[k] += w * rows[k];
                    }
                }
            }
        }
    }

    // Coefficients along one variable: of values [before × nodes × after].
    private static double[] Along(SplineBasis basis, double[] values, int before, int after)
    {
        var result = new double[before * basis.Coefficients * after];
        for (var b = 0; b < before; b++)
        {
            for (var c = 0; c < basis.Coefficients; c++)
            {
                var target = result.AsSpan(((b * basis.Coefficients) + c) * after, after);
                for (var node = 0; node < basis.Nodes; node++)
                {
                    var weight = basis.Weight(c, node);
                    var source = values.AsSpan(((b * basis.Nodes) + node) * after, after);
                    for (var k = 0; k < after; k++)
                    {
                        target[k] += weight * source[k];
                    }
                }
            }
        }

        return result;
    }
}
