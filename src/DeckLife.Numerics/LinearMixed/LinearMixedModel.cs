namespace DeckLife.Numerics.LinearMixed;

/// <summary>A linear mixed model with two correlated random effects a group, by maximum or restricted maximum likelihood.</summary>
/// <remarks>
/// Equation: y_j = X_j β + Z_j b_j + e_j, b_j ~ N(0, σ² Ψ), e_j ~ N(0, σ² I); β and σ² profiled out, Ψ = L Lᵀ searched over any L, so that
/// the edges (no variance, perfect correlation) can be reached. Source: Pinheiro and Bates, Mixed-Effects Models in S and S-PLUS
/// (2000), section 2.2. Checked by LinearMixedTests, and through the deck's one-stage fit against R's nlme.
/// </remarks>
public sealed record LinearMixedModel
{
    private LinearMixedModel() { }

    /// <summary>Fixed effects β.</summary>
    public required double[] Coefficients { get; init; }

    /// <summary>Covariance of β, p × p row by row.</summary>
    public required double[] CoefficientCovariance { get; init; }

    /// <summary>Predicted random effects b, two a group.</summary>
    public required double[] RandomEffects { get; init; }

    /// <summary>Covariance of the random effects: variance of the first, covariance, variance of the second.</summary>
    public required (double First, double Both, double Second) RandomCovariance { get; init; }

    /// <summary>Residual standard deviation σ.</summary>
    public required double ResidualSd { get; init; }

    /// <summary>Log-likelihood, restricted or full, with all constants.</summary>
    public required double LogLikelihood { get; init; }

    /// <summary>Whether the search ended by its tolerance.</summary>
    public required bool Converged { get; init; }

    /// <summary>The factor L of Ψ [a 0; b c], a start for a neighbouring problem.</summary>
    public required double[] RelativeFactor { get; init; }

    /// <summary>Fits; null where the fixed effects aren't determined.</summary>
    /// <param name="groups">The groups.</param>
    /// <param name="restricted">Restricted maximum likelihood (true), or maximum likelihood.</param>
    /// <param name="start">A start of <see cref="RelativeFactor"/>; absent: the identity.</param>
    public static LinearMixedModel? Fit(
        IReadOnlyList<LinearMixedGroup> groups,
        bool restricted,
        double[]? start = null
    )
    {
        ArgumentNullException.ThrowIfNull(groups);
        ArgumentOutOfRangeException.ThrowIfZero(groups.Count, nameof(groups));
        start ??= [1, 0, 1];
        var scale = Math.Max(0.1, start.Max(Math.Abs));
        var (place, _, converged) = SimplexSearch.Minimize(
            p => -(Evaluate(groups, p, restricted)?.LogLikelihood ?? double.NegativeInfinity),
            start,
            0.2 * scale,
            1e-11 * scale
        );
        return Evaluate(groups, place, restricted) is { } fit
            ? fit with
            {
                Converged = converged,
            }
            : null;
    }

    private static LinearMixedModel? Evaluate(
        IReadOnlyList<LinearMixedGroup> groups,
        double[] place,
        bool restricted
    )
    {
        double[] psi =
        [
            place[0] * place[0],
            place[0] * place[1],
            (place[1] * place[1]) + (place[2] * place[2]),
        ];
        var p = groups[0].FixedDesign.Length / groups[0].Response.Length;
        var cross = new double[p * p];
        var right = new double[p];
        double squares = 0;
        double logDeterminant = 0;
        var observations = 0;
        var factors = new double[groups.Count][];
        for (var j = 0; j < groups.Count; j++)
        {
            var group = groups[j];
            var n = group.Response.Length;
            observations += n;
            var v = Covariance(group, psi);
            if (!SymmetricMatrix.Factor(v, n))
            {
                return null;
            }

            factors[j] = v;
            logDeterminant += SymmetricMatrix.LogDeterminant(v, n);
            var y = (double[])group.Response.Clone();
            SymmetricMatrix.SolveLower(v, n, y);
            var columns = new double[p][];
            for (var a = 0; a < p; a++)
            {
                columns[a] =
                [
                    .. Enumerable.Range(0, n).Select(i => group.FixedDesign[(i * p) + a]),
                ];
                SymmetricMatrix.SolveLower(v, n, columns[a]);
            }

            for (var i = 0; i < n; i++)
            {
                squares += y[i] * y[i];
                for (var a = 0; a < p; a++)
                {
                    right[a] += columns[a][i] * y[i];
                    for (var b = 0; b <= a; b++)
                    {
                        cross[(a * p) + b] += columns[a][i] * columns[b][i];
                    }
                }
            }
        }

        if (!SymmetricMatrix.Factor(cross, p))
        {
            return null;
        }

        SymmetricMatrix.SolveLower(cross, p, right);
        var residual = squares;
        foreach (var r in right)
        {
            residual -= r * r;
        }

        SymmetricMatrix.SolveUpper(cross, p, right);
        var freedom = restricted ? observations - p : observations;
        var variance = Math.Max(residual, 1e-300) / freedom;
        var log = -0.5 * ((freedom * (Math.Log(2 * Math.PI * variance) + 1)) + logDeterminant);
        if (restricted)
        {
            log -= 0.5 * SymmetricMatrix.LogDeterminant(cross, p);
        }

        return new LinearMixedModel
        {
            Coefficients = right,
            CoefficientCovariance = Array.ConvertAll(
                SymmetricMatrix.Inverse(cross, p),
                x => x * variance
            ),
            RandomEffects = Predict(groups, factors, psi, right),
            RandomCovariance = (psi[0] * variance, psi[1] * variance, psi[2] * variance),
            ResidualSd = Math.Sqrt(variance),
            LogLikelihood = log,
            Converged = false,
            RelativeFactor = place,
        };
    }

    // I + Z Ψ Zᵀ.
    private static double[] Covariance(LinearMixedGroup group, double[] psi)
    {
        var n = group.Response.Length;
        var z = group.RandomDesign;
        var v = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var k = 0; k <= i; k++)
            {
                var first = (psi[0] * z[2 * k]) + (psi[1] * z[(2 * k) + 1]);
                var second = (psi[1] * z[2 * k]) + (psi[2] * z[(2 * k) + 1]);
                v[(i * n) + k] = (z[2 * i] * first) + (z[(2 * i) + 1] * second) + (i == k ? 1 : 0);
            }
        }

        return v;
    }

    // b = Ψ Zᵀ V⁻¹ (y - X β).
    private static double[] Predict(
        IReadOnlyList<LinearMixedGroup> groups,
        double[][] factors,
        double[] psi,
        double[] beta
    )
    {
        var effects = new double[2 * groups.Count];
        for (var j = 0; j < groups.Count; j++)
        {
            var group = groups[j];
            var n = group.Response.Length;
            var r = new double[n];
            for (var i = 0; i < n; i++)
            {
                r[i] = group.Response[i];
                for (var a = 0; a < beta.Length; a++)
                {
                    r[i] -= group.FixedDesign[(i * beta.Length) + a] * beta[a];
                }
            }

            SymmetricMatrix.SolveLower(factors[j], n, r);
            SymmetricMatrix.SolveUpper(factors[j], n, r);
            double first = 0;
            double second = 0;
            for (var i = 0; i < n; i++)
            {
                first += group.RandomDesign[2 * i] * r[i];
                second += group.RandomDesign[(2 * i) + 1] * r[i];
            }

            effects[2 * j] = (psi[0] * first) + (psi[1] * second);
            effects[(2 * j) + 1] = (psi[1] * first) + (psi[2] * second);
        }

        return effects;
    }
}
