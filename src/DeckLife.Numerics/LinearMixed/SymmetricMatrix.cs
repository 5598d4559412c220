namespace DeckLife.Numerics.LinearMixed;

/// <summary>Small dense positive definite matrices, row by row in one array.</summary>
internal static class SymmetricMatrix
{
    /// <summary>Replaces the lower triangle by the Cholesky factor L, A = L Lᵀ.</summary>
    /// <param name="matrix">n × n, row by row; the upper triangle is not read.</param>
    /// <param name="size">n.</param>
    /// <returns>Whether the matrix is positive definite.</returns>
    public static bool Factor(double[] matrix, int size)
    {
        for (var i = 0; i < size; i++)
        {
            for (var k = 0; k <= i; k++)
            {
                var sum = matrix[(i * size) + k];
                for (var m = 0; m < k; m++)
                {
                    sum -= matrix[(i * size) + m] * matrix[(k * size) + m];
                }

                if (i != k)
                {
                    matrix[(i * size) + k] = sum / matrix[(k * size) + k];
                }
                else if (sum > 0 && double.IsFinite(sum))
                {
                    matrix[(i * size) + i] = Math.Sqrt(sum);
                }
                else
                {
                    return false;
                }
            }
        }

        return true;
    }

    /// <summary>ln det A from its factor.</summary>
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

    /// <summary>A⁻¹ from the factor.</summary>
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
}
