using DeckLife.Numerics.LeastSquares;

namespace DeckLife.Numerics.Interpolation;

/// <summary>Cubic B-splines on equally spaced nodes, not-a-knot at both ends; one node alone is a constant.</summary>
/// <remarks>Source: de Boor, A Practical Guide to Splines, ch. IV and IX (memory).</remarks>
internal sealed class SplineBasis
{
    private readonly double[] inverse;

    /// <summary>Makes the basis.</summary>
    /// <param name="nodes">Number of nodes: 1, or at least 4.</param>
    public SplineBasis(int nodes)
    {
        if (nodes != 1)
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(nodes, 4);
        }

        Nodes = nodes;
        Coefficients = nodes == 1 ? 1 : nodes + 2;
        Support = nodes == 1 ? 1 : 4;
        inverse = nodes == 1 ? [1] : Inverse(nodes);
    }

    /// <summary>Number of nodes.</summary>
    public int Nodes { get; }

    /// <summary>Number of coefficients.</summary>
    public int Coefficients { get; }

    /// <summary>Number of coefficients that count at one place.</summary>
    public int Support { get; }

    /// <summary>Weight of a node's value in a coefficient.</summary>
    public double Weight(int coefficient, int node) => inverse[(coefficient * Nodes) + node];

    /// <summary>The coefficients that count at a place, and their weights.</summary>
    /// <param name="at">The place in units of nodes, from 0 to the last.</param>
    /// <param name="weights">Receives <see cref="Support"/> weights.</param>
    /// <returns>The first coefficient.</returns>
    public int At(double at, Span<float> weights)
    {
        if (Nodes == 1)
        {
            weights[0] = 1;
            return 0;
        }

        var first = Math.Clamp((int)at, 0, Nodes - 2);
        var t = at - first;
        var u = 1 - t;
        weights[0] = (float)(u * u * u / 6);
        weights[1] = (float)(((t * t * ((3 * t) - 6)) + 4) / 6);
        weights[2] = (float)(((u * u * ((3 * u) - 6)) + 4) / 6);
        weights[3] = (float)(t * t * t / 6);
        return first;
    }

    // Values at the nodes, and a third derivative without a jump at the second node from either end.
    private static double[] Inverse(int nodes)
    {
        var n = nodes + 2;
        var inverse = new double[n * nodes];
        for (var node = 0; node < nodes; node++)
        {
            var matrix = new double[n * n];
            var right = new double[n];
            for (var i = 0; i < nodes; i++)
            {
                matrix[(i * n) + i] = 1.0 / 6;
                matrix[(i * n) + i + 1] = 4.0 / 6;
                matrix[(i * n) + i + 2] = 1.0 / 6;
            }

            double[] jump = [1, -4, 6, -4, 1];
            for (var j = 0; j < 5; j++)
            {
                matrix[(nodes * n) + j] = jump[j];
                matrix[((nodes + 1) * n) + n - 5 + j] = jump[j];
            }

            right[node] = 1;
            var solution = new double[n];
            HouseholderQr.Triangularise(matrix, right, n, n);
            _ = HouseholderQr.Solve(matrix, right, n, solution);
            for (var c = 0; c < n; c++)
            {
                inverse[(c * nodes) + node] = solution[c];
            }
        }

        return inverse;
    }
}
