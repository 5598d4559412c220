using DeckLife.Numerics.Sampling;
using MathNet.Numerics.LinearAlgebra;

namespace DeckLife.Numerics.Reliability;

/// <summary>The second-order correction of a design point for the curvature of the limit state.</summary>
/// <remarks>
/// Equation: near u* the surface is v_n = β + ½ Σ κ_i v_i², κ the eigenvalues of the second derivatives in the tangent plane divided by |∇g|.
/// Source: Breitung, Journal of Engineering Mechanics 110 (1984) 357-366; Hohenbichler &amp; Rackwitz, same journal 114 (1988) 2195-2199 (from memory).
/// Where β is negative the safe set is treated in the same way and the probability is 1 minus its own. Checked by: ReliabilityTests.
/// </remarks>
public static class SecondOrderReliability
{
    /// <summary>Computes curvatures and corrected probabilities.</summary>
    /// <param name="limitState">The limit state.</param>
    /// <param name="point">A converged design point of it.</param>
    public static SecondOrderResult Correct(LimitState limitState, DesignPoint point)
    {
        ArgumentNullException.ThrowIfNull(limitState);
        ArgumentNullException.ThrowIfNull(point);
        var curvatures = Curvatures(limitState, point);
        // Seen from a failed origin the surface bends the other way, at distance -β.
        var sign = point.Beta < 0 ? -1.0 : 1.0;
        var beta = Math.Abs(point.Beta);
        var tail = NormalQuantile.Probability(-beta);
        var psi = Math.Exp(-0.5 * beta * beta) / Math.Sqrt(2 * Math.PI) / tail;
        var breitung = tail;
        var improved = tail;
        var valid = true;
        foreach (var curvature in curvatures)
        {
            var k = sign * curvature;
            valid &= 1 + (beta * k) > 0 && 1 + (psi * k) > 0 && double.IsFinite(k);
            breitung /= Math.Sqrt(1 + (beta * k));
            improved /= Math.Sqrt(1 + (psi * k));
        }

        return new()
        {
            Curvatures = [.. curvatures],
            IsValid = valid,
            Breitung =
                !valid ? null
                : point.Beta < 0 ? 1 - breitung
                : breitung,
            HohenbichlerRackwitz =
                !valid ? null
                : point.Beta < 0 ? 1 - improved
                : improved,
        };
    }

    /// <summary>Whether the distance to the origin has a local minimum at the point, and not a saddle.</summary>
    internal static bool IsLocalMinimum(LimitState limitState, DesignPoint point)
    {
        var sign = point.Beta < 0 ? -1.0 : 1.0;
        return Curvatures(limitState, point)
            .All(k => 1 + (Math.Abs(point.Beta) * sign * k) > -1e-4);
    }

    private static double[] Curvatures(LimitState limitState, DesignPoint point)
    {
        var n = limitState.Dimensions;
        if (n == 1 || point.Slope <= 0)
        {
            return [];
        }

        var tangent = TangentBasis(point.Direction.AsSpan());
        var second = SecondDerivatives(limitState, point, tangent);
        if (second.Enumerate().Any(v => !double.IsFinite(v)))
        {
            return [double.NegativeInfinity];
        }

        var values = second
            .Evd(Symmetricity.Symmetric)
            .EigenValues.Select(v => v.Real / point.Slope)
            .ToArray();
        Array.Sort(values);
        return values;
    }

    // Central second differences along the tangent directions, all points in one call.
    private static Matrix<double> SecondDerivatives(
        LimitState limitState,
        DesignPoint point,
        double[][] tangent
    )
    {
        const double H = 2e-3;
        var n = limitState.Dimensions;
        var m = tangent.Length;
        var pairs = m * (m - 1) / 2;
        var count = 1 + (2 * m) + (4 * pairs);
        var columns = new double[n][];
        for (var d = 0; d < n; d++)
        {
            columns[d] = new double[count];
            Array.Fill(columns[d], point.Scores[d]);
        }

        void Move(int at, int direction, double by)
        {
            for (var d = 0; d < n; d++)
            {
                columns[d][at] += by * tangent[direction][d];
            }
        }

        var next = 1;
        for (var i = 0; i < m; i++)
        {
            Move(next++, i, H);
            Move(next++, i, -H);
        }

        for (var i = 0; i < m; i++)
        {
            for (var j = i + 1; j < m; j++)
            {
                for (var corner = 0; corner < 4; corner++)
                {
                    Move(next, i, (corner & 1) == 0 ? H : -H);
                    Move(next++, j, (corner & 2) == 0 ? H : -H);
                }
            }
        }

        var g = new double[count];
        limitState.Evaluate(count, columns, g);
        var second = Matrix<double>.Build.Dense(m, m);
        for (var i = 0; i < m; i++)
        {
            second[i, i] = (g[1 + (2 * i)] - (2 * g[0]) + g[2 + (2 * i)]) / (H * H);
        }

        var at = 1 + (2 * m);
        for (var i = 0; i < m; i++)
        {
            for (var j = i + 1; j < m; j++, at += 4)
            {
                second[i, j] = second[j, i] =
                    (g[at] - g[at + 1] - g[at + 2] + g[at + 3]) / (4 * H * H);
            }
        }

        return second;
    }

    // Orthonormal directions across α: the Householder reflection that takes the last axis to α, without its last column.
    private static double[][] TangentBasis(ReadOnlySpan<double> alpha)
    {
        var n = alpha.Length;
        var v = alpha.ToArray();
        var sign = v[n - 1] >= 0 ? 1 : -1;
        v[n - 1] += sign;
        var scale = 2 / FirstOrderReliability.Dot(v, v);
        var basis = new double[n - 1][];
        for (var i = 0; i < n - 1; i++)
        {
            basis[i] = new double[n];
            for (var d = 0; d < n; d++)
            {
                basis[i][d] = (d == i ? 1 : 0) - (scale * v[i] * v[d]);
            }
        }

        return basis;
    }
}
