namespace DeckLife.Numerics.Distributions;

/// <summary>A quantile in a stretched variable v, tabulated over standard normal scores z and held against the exact one between all nodes.</summary>
/// <remarks>
/// Equation: the polynomial of degree 5 with v, dv/dz = φ(z)/g(v) and d²v/dz² = v' (-z - (ln g)'(v) v') of both nodes, g being the density of v.
/// Accuracy: within <see cref="Tolerance"/> of the exact v halfway between any two nodes, where the error is largest. Checked by: DistributionTests.
/// </remarks>
internal sealed class QuantileTable
{
    /// <summary>Largest error in v; where v is a logarithm, the relative error of the value.</summary>
    public const double Tolerance = 1e-10;

    // Uniform numbers of 52 bits lie within 8.21 standard deviations.
    private const double End = 8.25;
    private const int FewestPieces = 64;
    private const int MostPieces = 2048;
    private const int Terms = 6;

    private readonly double[] _coefficients;
    private readonly double _pieces;
    private readonly Func<double, double> _exact;

    private QuantileTable(double[] coefficients, Func<double, double> exact)
    {
        _coefficients = coefficients;
        _pieces = (double)coefficients.Length / Terms / (2 * End);
        _exact = exact;
    }

    /// <summary>Makes the table, with as few pieces as the tolerance allows.</summary>
    /// <param name="exact">v of a score.</param>
    /// <param name="logDensity">ln g(v) and its derivative.</param>
    /// <returns>Absent where the curve is too sharp for any table.</returns>
    public static QuantileTable? TryMake(
        Func<double, double> exact,
        Func<double, (double Value, double Slope)> logDensity
    )
    {
        var known = Values(exact, FewestPieces);
        for (var pieces = FewestPieces; pieces <= MostPieces; pieces *= 2)
        {
            var table = new QuantileTable(Coefficients(known, logDensity), exact);
            // The values halfway are the test of this table and the nodes of the next.
            var finer = Values(exact, 2 * pieces, known);
            if (table.Holds(finer))
            {
                return table;
            }

            known = finer;
        }

        return null;
    }

    /// <summary>v of a score; beyond the table the exact one.</summary>
    /// <param name="z">The score.</param>
    public double At(double z)
    {
        var place = (z + End) * _pieces;
        if (!(place >= 0 && z < End))
        {
            return _exact(z);
        }

        var piece = (int)place;
        var t = place - piece;
        var c = _coefficients.AsSpan(piece * Terms, Terms);
        return c[0] + (t * (c[1] + (t * (c[2] + (t * (c[3] + (t * (c[4] + (t * c[5])))))))));
    }

    private bool Holds(double[] finer)
    {
        for (var i = 1; i < finer.Length; i += 2)
        {
            if (!(Math.Abs(At(Score(i, finer.Length - 1)) - finer[i]) <= Tolerance))
            {
                return false;
            }
        }

        return true;
    }

    private static double Score(int i, int pieces) => -End + (2 * End * i / pieces);

    private static double[] Values(Func<double, double> exact, int pieces, double[]? known = null)
    {
        var values = new double[pieces + 1];
        for (var i = 0; i <= pieces; i++)
        {
            values[i] = known is not null && i % 2 == 0 ? known[i / 2] : exact(Score(i, pieces));
        }

        return values;
    }

    private static double[] Coefficients(
        double[] values,
        Func<double, (double Value, double Slope)> logDensity
    )
    {
        var pieces = values.Length - 1;
        var width = 2 * End / pieces;
        var slopes = new double[values.Length];
        var bends = new double[values.Length];
        for (var i = 0; i < values.Length; i++)
        {
            var z = Score(i, pieces);
            var (log, rise) = logDensity(values[i]);
            var slope = Math.Exp((-0.5 * z * z) - (0.5 * Math.Log(2 * Math.PI)) - log);
            slopes[i] = width * slope;
            bends[i] = width * width * slope * (-z - (rise * slope));
        }

        var result = new double[pieces * Terms];
        for (var i = 0; i < pieces; i++)
        {
            var change = values[i + 1] - values[i];
            var (d0, d1, b0, b1) = (slopes[i], slopes[i + 1], bends[i], bends[i + 1]);
            double[] polynomial =
            [
                values[i],
                d0,
                0.5 * b0,
                (10 * change) - (6 * d0) - (4 * d1) - (1.5 * b0) + (0.5 * b1),
                (-15 * change) + (8 * d0) + (7 * d1) + (1.5 * b0) - b1,
                (6 * change) - (3 * (d0 + d1)) - (0.5 * (b0 - b1)),
            ];
            polynomial.CopyTo(result, i * Terms);
        }

        return result;
    }
}
