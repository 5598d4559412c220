using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.LeastSquares;

namespace DeckLife.Fitting;

/// <summary>The covariance of (Cs, ln D, C0) by exact derivatives of the model at the optimum.</summary>
internal static class ProfileCovariance
{
    /// <summary>Computes it.</summary>
    /// <param name="search">The fit.</param>
    /// <param name="law">The law of the errors.</param>
    /// <param name="backgroundIsFree">Whether C0 is neither held nor at its bound.</param>
    /// <returns>9 numbers by rows; absent when the information is singular.</returns>
    /// <remarks>Measured slices carry weight/scale², non-detects the curvature of their likelihood, slips their share under Student's t.</remarks>
    public static double[]? Compute(ProfileSearch search, ErrorLaw law, bool backgroundIsFree)
    {
        var scale = Scale(search);
        return scale > 0
            ? Invert(Information(search, law, scale, scale), backgroundIsFree ? 3 : 2)
            : new double[9];
    }

    /// <summary>Logarithm of the determinant of the information at errors of unit scale; absent where it is singular.</summary>
    /// <param name="search">The fit.</param>
    /// <param name="law">The law of the errors.</param>
    public static double? LogInformation(ProfileSearch search, ErrorLaw law)
    {
        var size = search.Objective.Data.FixedBackground is null ? 3 : 2;
        var scale = Scale(search);
        if (
            !(scale > 0)
            || Scaled(Information(search, law, scale, 1), size, out var root) is not { } matrix
        )
        {
            return null;
        }

        return Math.Log(matrix.Determinant()) + (2 * root.Sum(Math.Log));
    }

    // Of (Cs, ln D, C0): the scale of the errors enters where non-detects lie on their curve, the unit into all.
    private static double[,] Information(
        ProfileSearch search,
        ErrorLaw law,
        double scale,
        double unit
    )
    {
        var data = search.Objective.Data;
        var best = search.Best;
        var length = 2 * Math.Sqrt(Math.Exp(best.LnDiffusion) * data.Years);
        var information = new double[3, 3];
        Span<double> row = stackalloc double[3];
        for (var i = 0; i < data.Count; i++)
        {
            var share = SliceMean.Value(data.TopMm[i], data.BottomMm[i], length, out var slope);
            row[0] = share;
            row[1] = best.Excess * slope;
            row[2] = 1 - share;
            var root = Math.Sqrt(data.Weight[i]) / scale;
            var u = root * (data.Content[i] - best.Background - (best.Excess * share));
            var curvature = Curvature(u, data.Censored[i], law);
            var weight = data.Weight[i] / (unit * unit) * curvature;
            for (var j = 0; j < 3; j++)
            {
                for (var k = 0; k < 3; k++)
                {
                    information[j, k] += weight * row[j] * row[k];
                }
            }
        }

        return information;
    }

    /// <summary>The scale of the errors at unit weight, widened where known errors are exceeded.</summary>
    public static double Scale(ProfileSearch search)
    {
        var data = search.Objective.Data;
        if (!data.ScaleIsKnown)
        {
            return search.Best.Scale;
        }

        return search.Objective is LeastSquaresObjective
            ? Math.Sqrt(Math.Max(1, search.Best.Objective / Math.Max(1, data.DegreesOfFreedom)))
            : 1;
    }

    private static double Curvature(double u, bool censored, ErrorLaw law)
    {
        double? nu = law == ErrorLaw.Student ? LikelihoodObjective.StudentDegrees : null;
        if (censored)
        {
            _ = ResidualLoss.Value(u, true, nu, out _, out var second);
            return second;
        }

        // Expected information of Student's t: (nu + 1) / (nu + 3).
        return nu is { } degrees ? (degrees + 1) / (degrees + 3) : 1;
    }

    // The leading block scaled to a unit diagonal, with the roots of its own diagonal; absent where singular.
    private static MathNet.Numerics.LinearAlgebra.Matrix<double>? Scaled(
        double[,] information,
        int size,
        out double[] root
    )
    {
        root = new double[size];
        var matrix = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.Dense(size, size);
        for (var j = 0; j < size; j++)
        {
            root[j] = Math.Sqrt(information[j, j]);
            if (!(root[j] > 0))
            {
                return null;
            }
        }

        for (var j = 0; j < size; j++)
        {
            for (var k = 0; k < size; k++)
            {
                matrix[j, k] = information[j, k] / (root[j] * root[k]);
            }
        }

        return matrix.Determinant() > 1e-14 ? matrix : null;
    }

    private static double[]? Invert(double[,] information, int size)
    {
        if (Scaled(information, size, out var root) is not { } matrix)
        {
            return null;
        }

        var inverse = matrix.Inverse();
        var result = new double[9];
        for (var j = 0; j < size; j++)
        {
            for (var k = 0; k < size; k++)
            {
                result[(j * 3) + k] = inverse[j, k] / (root[j] * root[k]);
            }
        }

        return result;
    }
}
