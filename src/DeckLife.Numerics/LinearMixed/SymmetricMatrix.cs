using System.Numerics;

namespace DeckLife.Numerics.LinearMixed;

/// <summary>Small dense positive definite matrices, row by row in one array.</summary>
public static class SymmetricMatrix
{
    /// <summary>Replaces the lower triangle by the Cholesky factor L, A = L Lᵀ.</summary>
    /// <param name="matrix">n × n, row by row; the upper triangle is not read.</param>
    /// <param name="size">n.</param>
    /// <returns>Whether the matrix is positive definite.</returns>
    public static bool Factor(double[] matrix, int size)
    {
        // Column by column from the left, the rest reduced at once: each element sees the same subtractions in the same order as row by
        // row, and the inner loop runs along a row.
        var column = new double[size];
        for (var k = 0; k < size; k++)
        {
            var pivot = matrix[(k * size) + k];
            if (!(pivot > 0) || !double.IsFinite(pivot))
            {
                return false;
            }

            pivot = Math.Sqrt(pivot);
            matrix[(k * size) + k] = pivot;
            for (var i = k + 1; i < size; i++)
            {
                column[i] = matrix[(i * size) + k] / pivot;
                matrix[(i * size) + k] = column[i];
            }

            for (var i = k + 1; i < size; i++)
            {
                Reduce(
                    matrix.AsSpan((i * size) + k + 1, i - k),
                    column[i],
                    column.AsSpan(k + 1, i - k)
                );
            }
        }

        return true;
    }

    /// <summary>ln det A from its factor.</summary>
    /// <param name="factor">L, as <see cref="Factor"/> leaves it.</param>
    /// <param name="size">n.</param>
    public static double LogDeterminant(double[] factor, int size)
    {
        double sum = 0;
        for (var i = 0; i < size; i++)
        {
            sum += 2 * Math.Log(factor[(i * size) + i]);
        }

        return sum;
    }

    /// <summary>Replaces b by L⁻¹ b.</summary>
    /// <param name="factor">L, as <see cref="Factor"/> leaves it.</param>
    /// <param name="size">n.</param>
    /// <param name="right">b, n values.</param>
    public static void SolveLower(double[] factor, int size, Span<double> right)
    {
        for (var i = 0; i < size; i++)
        {
            var sum = right[i];
            for (var k = 0; k < i; k++)
            {
                sum -= factor[(i * size) + k] * right[k];
            }

            right[i] = sum / factor[(i * size) + i];
        }
    }

    /// <summary>Replaces b by L⁻ᵀ b.</summary>
    /// <param name="factor">L, as <see cref="Factor"/> leaves it.</param>
    /// <param name="size">n.</param>
    /// <param name="right">b, n values.</param>
    public static void SolveUpper(double[] factor, int size, Span<double> right)
    {
        for (var i = size - 1; i >= 0; i--)
        {
            var sum = right[i];
            for (var k = i + 1; k < size; k++)
            {
                sum -= factor[(k * size) + i] * right[k];
            }

            right[i] = sum / factor[(i * size) + i];
        }
    }

    /// <summary>Replaces B by L⁻¹ B.</summary>
    /// <param name="factor">L, as <see cref="Factor"/> leaves it.</param>
    /// <param name="size">n.</param>
    /// <param name="right">B, n rows of <paramref name="columns"/> values.</param>
    /// <param name="columns">Number of columns.</param>
    public static void SolveLower(double[] factor, int size, double[] right, int columns)
    {
        for (var i = 0; i < size; i++)
        {
            var row = right.AsSpan(i * columns, columns);
            for (var k = 0; k < i; k++)
            {
                Reduce(row, factor[(i * size) + k], right.AsSpan(k * columns, columns));
            }

            var pivot = factor[(i * size) + i];
            for (var j = 0; j < columns; j++)
            {
                row[j] /= pivot;
            }
        }
    }

    /// <summary>A⁻¹ from the factor.</summary>
    /// <param name="factor">L, as <see cref="Factor"/> leaves it.</param>
    /// <param name="size">n.</param>
    /// <returns>n × n, row by row.</returns>
    public static double[] Inverse(double[] factor, int size)
    {
        var inverse = new double[size * size];
        var column = new double[size];
        for (var k = 0; k < size; k++)
        {
            Array.Clear(column);
            column[k] = 1;
            SolveLower(factor, size, column);
            SolveUpper(factor, size, column);
            for (var i = 0; i < size; i++)
            {
                inverse[(i * size) + k] = column[i];
            }
        }

        return inverse;
    }

    // row − times · other, element by element: one rounding a product and one a difference, whatever the width of the machine's vectors.
    private static void Reduce(Span<double> row, double times, ReadOnlySpan<double> other)
    {
        var width = Vector<double>.Count;
        var factor = new Vector<double>(times);
        var j = 0;
        for (; j <= row.Length - width; j += width)
        {
            (new Vector<double>(row[j..]) - (factor * new Vector<double>(other[j..]))).CopyTo(
                row[j..]
            );
        }

        for (; j < row.Length; j++)
        {
            row[j] -= times * other[j];
        }
    }
}
