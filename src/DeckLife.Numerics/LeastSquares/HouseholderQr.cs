namespace DeckLife.Numerics.LeastSquares;

/// <summary>Triangularises a tall matrix in place by Householder reflections, its right-hand side with it.</summary>
public static class HouseholderQr
{
    /// <summary>Overwrites the leading square of <paramref name="a"/> by R and <paramref name="b"/> by Qᵀb.</summary>
    /// <param name="a">rows × columns, by rows, rows at least columns.</param>
    /// <param name="b">The right-hand side, of length rows.</param>
    /// <param name="rows">Rows.</param>
    /// <param name="columns">Columns.</param>
    public static void Triangularise(Span<double> a, Span<double> b, int rows, int columns)
    {
        for (var k = 0; k < columns; k++)
        {
            var largest = 0.0;
            for (var i = k; i < rows; i++)
            {
                largest = Math.Max(largest, Math.Abs(a[(i * columns) + k]));
            }

            if (largest == 0)
            {
                continue;
            }

            // Scaled, so that neither tiny nor huge columns under- or overflow.
            var sum = 0.0;
            for (var i = k; i < rows; i++)
            {
                var scaled = a[(i * columns) + k] / largest;
                sum += scaled * scaled;
            }

            var norm = largest * Math.Sqrt(sum);
            var alpha = a[(k * columns) + k] > 0 ? -norm : norm;
            var head = a[(k * columns) + k] - alpha;
            // The reflection I - v vᵀ / (-alpha head) with v = (head, column below).
            var denominator = -alpha * head;
            for (var j = k + 1; j <= columns; j++)
            {
                var dot = head * Get(a, b, columns, k, j);
                for (var i = k + 1; i < rows; i++)
                {
                    dot += a[(i * columns) + k] * Get(a, b, columns, i, j);
                }

                var factor = dot / denominator;
                Subtract(a, b, columns, k, j, factor * head);
                for (var i = k + 1; i < rows; i++)
                {
                    Subtract(a, b, columns, i, j, factor * a[(i * columns) + k]);
                }
            }

            a[(k * columns) + k] = alpha;
        }
    }

    /// <summary>Solves R x = the head of b; false where R is singular to rounding.</summary>
    public static bool Solve(
        ReadOnlySpan<double> a,
        ReadOnlySpan<double> b,
        int columns,
        Span<double> x
    )
    {
        for (var k = columns - 1; k >= 0; k--)
        {
            var sum = b[k];
            for (var j = k + 1; j < columns; j++)
            {
                sum -= a[(k * columns) + j] * x[j];
            }

            var pivot = a[(k * columns) + k];
            if (pivot == 0)
            {
                return false;
            }

            x[k] = sum / pivot;
        }

        return true;
    }

    // Column number `columns` is the right-hand side.
    private static double Get(Span<double> a, Span<double> b, int columns, int i, int j) =>
        j < columns ? a[(i * columns) + j] : b[i];

    private static void Subtract(
        Span<double> a,
        Span<double> b,
        int columns,
        int i,
        int j,
        double value
    )
    {
        if (j < columns)
        {
            a[(i * columns) + j] -= value;
        }
        else
        {
            b[i] -= value;
        }
    }
}
