using MathNet.Numerics.LinearAlgebra;

namespace DeckLife.Numerics.Distributions;

/// <summary>The valid correlation matrix nearest to one that contradicts itself, in the Frobenius norm.</summary>
/// <remarks>
/// Source: Higham, IMA Journal of Numerical Analysis 22 (2002) 329-343: alternating projections with Dykstra's correction.
/// Eigenvalues are held at 1e-8 at least, so that the result has a Cholesky factor. Checked by: GaussianCopulaTests.
/// </remarks>
public static class NearestCorrelation
{
    // Far above rounding for some dozens of variables, far below what any stated correlation is known to.
    private const double SmallestEigenvalue = 1e-8;

    /// <summary>Finds the matrix.</summary>
    /// <param name="correlation">Symmetric, ones on the diagonal; shape [n × n].</param>
    /// <returns>Symmetric, ones on the diagonal, positive definite.</returns>
    public static double[,] Find(double[,] correlation)
    {
        var y = Matrix<double>.Build.DenseOfArray(correlation);
        var correction = Matrix<double>.Build.Dense(y.RowCount, y.ColumnCount);
        for (var i = 0; i < 2000; i++)
        {
            var shifted = y - correction;
            var positive = Positive(shifted);
            correction = positive - shifted;
            var next = WithUnitDiagonal(positive);
            var change = (next - y).FrobeniusNorm();
            y = next;
            if (change < 1e-13 * y.FrobeniusNorm())
            {
                break;
            }
        }

        // The last projection may leave a slightly negative eigenvalue: lift, then scale the diagonal back to 1.
        y = Positive(y);
        var result = new double[y.RowCount, y.ColumnCount];
        for (var i = 0; i < y.RowCount; i++)
        {
            for (var j = 0; j < y.ColumnCount; j++)
            {
                result[i, j] =
                    i == j ? 1 : y[Math.Min(i, j), Math.Max(i, j)] / Math.Sqrt(y[i, i] * y[j, j]);
            }
        }

        return result;
    }

    private static Matrix<double> Positive(Matrix<double> matrix)
    {
        var symmetric = (matrix + matrix.Transpose()) / 2;
        var eigen = symmetric.Evd(Symmetricity.Symmetric);
        var values = eigen.EigenValues.Map(v => Math.Max(v.Real, SmallestEigenvalue));
        return eigen.EigenVectors
            * Matrix<double>.Build.DenseOfDiagonalArray(values.ToArray())
            * eigen.EigenVectors.Transpose();
    }

    private static Matrix<double> WithUnitDiagonal(Matrix<double> matrix)
    {
        var result = matrix.Clone();
        for (var i = 0; i < result.RowCount; i++)
        {
            result[i, i] = 1;
        }

        return result;
    }
}
