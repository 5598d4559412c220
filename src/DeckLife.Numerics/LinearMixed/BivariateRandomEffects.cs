namespace DeckLife.Numerics.LinearMixed;

/// <summary>
/// Two outcomes estimated in each of several groups, with a known covariance of all estimates: their means over the groups and their
/// covariance between groups, by maximum or restricted maximum likelihood.
/// </summary>
/// <remarks>
/// Equation: y ~ N(X β, V + I ⊗ Σ), y = (first and second outcome of group 1, of group 2, …), X picking the outcome, Σ any covariance.
/// Restricted log-likelihood with all constants: -½ (k-2) ln 2π + ½ ln|XᵀX| - ½ ln|M| - ½ ln|XᵀM⁻¹X| - ½ rᵀM⁻¹r.
/// Source: van Houwelingen, Arends and Stijnen, Advanced methods in meta-analysis (Statistics in Medicine 21, 2002). Checked by:
/// LinearMixedTests, and against metafor's rma.mv in reference-checks.
/// </remarks>
public sealed record BivariateRandomEffects
{
    private BivariateRandomEffects() { }

    /// <summary>Means of the two outcomes.</summary>
    public required (double First, double Second) Mean { get; init; }

    /// <summary>Covariance of the means: variance of the first, covariance, variance of the second.</summary>
    public required (double First, double Both, double Second) MeanCovariance { get; init; }

    /// <summary>Standard deviations between groups.</summary>
    public required (double First, double Second) BetweenSd { get; init; }

    /// <summary>Correlation between groups; 0 where a standard deviation is 0.</summary>
    public required double Correlation { get; init; }

    /// <summary>Log-likelihood, restricted or full, with all constants.</summary>
    public required double LogLikelihood { get; init; }

    /// <summary>Number of groups.</summary>
    public required int Groups { get; init; }

    /// <summary>Whether Σ lies at its edge: a standard deviation of (nearly) 0 or a correlation of (nearly) ±1.</summary>
    public required bool IsSingular { get; init; }

    /// <summary>Whether the search ended by its tolerance.</summary>
    public required bool Converged { get; init; }

    /// <summary>Fits.</summary>
    /// <param name="estimates">2 J estimates: the two outcomes of each group in turn; J at least 2.</param>
    /// <param name="covariance">Their covariance, (2 J)² values row by row, positive definite.</param>
    /// <param name="restricted">Restricted maximum likelihood (true), or maximum likelihood.</param>
    /// <returns>The fit; null where the covariance is not positive definite.</returns>
    public static BivariateRandomEffects? Fit(
        ReadOnlySpan<double> estimates,
        ReadOnlySpan<double> covariance,
        bool restricted
    )
    {
        var size = estimates.Length;
        if (size < 4 || size % 2 != 0 || covariance.Length != size * size)
        {
            throw new ArgumentException(
                "2 J estimates, J at least 2, and their (2 J)² covariances are needed.",
                nameof(estimates)
            );
        }

        var y = estimates.ToArray();
        var v = covariance.ToArray();
        var check = (double[])v.Clone();
        if (!SymmetricMatrix.Factor(check, size))
        {
            return null;
        }

        // Start: between-group moments of the raw estimates.
        var groups = size / 2;
        double[] sd = [Sd(y, 0), Sd(y, 1)];
        double[] start = [0.7 * sd[0], 0.1 * sd[1], 0.7 * sd[1]];
        var (place, _, converged) = SimplexSearch.Minimize(
            p => -Evaluate(y, v, p, restricted).LogLikelihood,
            start,
            0.5 * Math.Max(sd[0], sd[1]),
            1e-10
        );
        var final = Evaluate(y, v, place, restricted);
        var first = Math.Abs(place[0]);
        var second = Math.Sqrt((place[1] * place[1]) + (place[2] * place[2]));
        var correlation = first > 0 && second > 0 ? Math.Sign(place[0]) * place[1] / second : 0;
        return new BivariateRandomEffects
        {
            Mean = final.Mean,
            MeanCovariance = final.Covariance,
            BetweenSd = (first, second),
            Correlation = correlation,
            LogLikelihood = final.LogLikelihood,
            Groups = groups,
            IsSingular =
                first < 1e-3 * sd[0] || second < 1e-3 * sd[1] || Math.Abs(correlation) > 0.999,
            Converged = converged,
        };
    }

    private static double Sd(double[] y, int outcome)
    {
        double mean = 0;
        var groups = y.Length / 2;
        for (var j = 0; j < groups; j++)
        {
            mean += y[(2 * j) + outcome] / groups;
        }

        double sum = 0;
        for (var j = 0; j < groups; j++)
        {
            var d = y[(2 * j) + outcome] - mean;
            sum += d * d;
        }

        return Math.Max(1e-6, Math.Sqrt(sum / (groups - 1)));
    }

    // Σ = L Lᵀ with L = [a 0; b c]: any real a, b, c give a covariance, edges included.
    private static (
        double LogLikelihood,
        (double First, double Second) Mean,
        (double First, double Both, double Second) Covariance
    ) Evaluate(double[] y, double[] v, double[] place, bool restricted)
    {
        var size = y.Length;
        var m = (double[])v.Clone();
        var ss = place[0] * place[0];
        var sd = place[0] * place[1];
        var dd = (place[1] * place[1]) + (place[2] * place[2]);
        for (var i = 0; i < size; i += 2)
        {
            m[(i * size) + i] += ss;
            m[((i + 1) * size) + i] += sd;
            m[((i + 1) * size) + i + 1] += dd;
        }

        if (!SymmetricMatrix.Factor(m, size))
        {
            return (double.NegativeInfinity, default, default);
        }

        var first = new double[size];
        var second = new double[size];
        var right = (double[])y.Clone();
        for (var i = 0; i < size; i += 2)
        {
            first[i] = 1;
            second[i + 1] = 1;
        }

        SymmetricMatrix.SolveLower(m, size, first);
        SymmetricMatrix.SolveLower(m, size, second);
        SymmetricMatrix.SolveLower(m, size, right);
        var aa = Dot(first, first);
        var ab = Dot(first, second);
        var bb = Dot(second, second);
        var ay = Dot(first, right);
        var by = Dot(second, right);
        var determinant = (aa * bb) - (ab * ab);
        var meanFirst = ((bb * ay) - (ab * by)) / determinant;
        var meanSecond = ((aa * by) - (ab * ay)) / determinant;
        double squares = 0;
        for (var i = 0; i < size; i++)
        {
            var r = right[i] - (meanFirst * first[i]) - (meanSecond * second[i]);
            squares += r * r;
        }

        var log = -0.5 * (SymmetricMatrix.LogDeterminant(m, size) + squares);
        log -= 0.5 * (restricted ? size - 2 : size) * Math.Log(2 * Math.PI);
        if (restricted)
        {
            // |XᵀX| = J² for the two indicator columns.
            log += Math.Log(size / 2) - (0.5 * Math.Log(determinant));
        }

        return (
            log,
            (meanFirst, meanSecond),
            (bb / determinant, -ab / determinant, aa / determinant)
        );
    }

    private static double Dot(double[] a, double[] b)
    {
        double sum = 0;
        for (var i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }
}
