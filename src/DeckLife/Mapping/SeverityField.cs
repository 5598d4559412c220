using DeckLife.Numerics.LinearMixed;

namespace DeckLife.Mapping;

/// <summary>The smooth severity over the cells before anything was seen on them: normal, with mean and covariance.</summary>
internal sealed class SeverityField
{
    // Newton's steps to the mode, of a concave log posterior: usually under ten. The tolerance is of its value, whose spread is of order 1.
    private const int MostSteps = 60;
    private const double Tolerance = 1e-7;

    private readonly double[] mean;
    private readonly double[] covariance;
    private readonly int n;

    /// <summary>Takes the pieces.</summary>
    /// <param name="mean">Mean of each cell.</param>
    /// <param name="covariance">n × n, row by row.</param>
    /// <param name="localSd">Standard deviation of the scatter within a cell.</param>
    public SeverityField(double[] mean, double[] covariance, double localSd)
    {
        this.mean = mean;
        this.covariance = covariance;
        LocalSd = localSd;
        n = mean.Length;
        var average = mean.Average();
        var spread = mean.Average(m => (m - average) * (m - average));
        Scale =
        [
            .. Enumerable
                .Range(0, n)
                .Select(i => Math.Sqrt(covariance[i * n + i] + spread + localSd * localSd)),
        ];
    }

    /// <summary>Standard deviation of the scatter within a cell.</summary>
    public double LocalSd { get; }

    /// <summary>Standard deviation of a place's severity, by cell: a deck's score times this gives the deck's share on each cell.</summary>
    public double[] Scale { get; }

    /// <summary>
    /// The field after the cells' evidence: mode, standard deviation and logarithm of the evidence by Laplace's approximation. Curvature that would
    /// be negative counts as 0, which widens the result.
    /// </summary>
    /// <param name="log">Log-likelihood of a cell's severity with its first two derivatives.</param>
    public (double[] Mode, double[] Sd, double LogEvidence) Given(
        Func<int, double, (double Log, double First, double Second)> log
    )
    {
        var f = (double[])mean.Clone();
        var weights = new double[n];
        var objective = double.NegativeInfinity;
        double[] factor = [],
            roots = new double[n];
        var alpha = new double[n];
        for (var step = 0; step < MostSteps; step++)
        {
            var (value, slopes) = Evaluate(log, f, alpha, weights, roots);
            if (step > 0 && value - objective < Tolerance)
            {
                objective = Math.Max(objective, value);
                factor = Factor(roots);
                break;
            }

            objective = value;
            factor = Factor(roots);
            var b = new double[n];
            for (var i = 0; i < n; i++)
            {
                b[i] = weights[i] * (f[i] - mean[i]) + slopes[i];
            }

            var inner = Times(b);
            for (var i = 0; i < n; i++)
            {
                inner[i] *= roots[i];
            }

            SymmetricMatrix.SolveLower(factor, n, inner);
            SymmetricMatrix.SolveUpper(factor, n, inner);
            var target = new double[n];
            for (var i = 0; i < n; i++)
            {
                target[i] = b[i] - roots[i] * inner[i];
            }

            (f, alpha) = Backtrack(log, f, alpha, target, objective);
        }

        return (f, Deviations(factor, roots), objective - 0.5 * LogDeterminant(factor));
    }

    private double LogDeterminant(double[] factor) => SymmetricMatrix.LogDeterminant(factor, n);

    private (double[] F, double[] Alpha) Backtrack(
        Func<int, double, (double Log, double First, double Second)> log,
        double[] f,
        double[] alpha,
        double[] target,
        double objective
    )
    {
        var end = Times(target);
        for (var share = 1.0; share > 1e-4; share /= 2)
        {
            var next = new double[n];
            var nextAlpha = new double[n];
            double sum = 0;
            for (var i = 0; i < n; i++)
            {
                next[i] = f[i] + share * (mean[i] + end[i] - f[i]);
                nextAlpha[i] = alpha[i] + share * (target[i] - alpha[i]);
                sum += log(i, next[i]).Log - 0.5 * nextAlpha[i] * (next[i] - mean[i]);
            }

            if (sum >= objective)
            {
                return (next, nextAlpha);
            }
        }

        return (f, alpha);
    }

    private (double Value, double[] Slopes) Evaluate(
        Func<int, double, (double Log, double First, double Second)> log,
        double[] f,
        double[] alpha,
        double[] weights,
        double[] roots
    )
    {
        var slopes = new double[n];
        var value = 0.0;
        for (var i = 0; i < n; i++)
        {
            var (here, first, second) = log(i, f[i]);
            value += here - 0.5 * alpha[i] * (f[i] - mean[i]);
            slopes[i] = first;
            weights[i] = Math.Max(0, -second);
            roots[i] = Math.Sqrt(weights[i]);
        }

        return (value, slopes);
    }

    private double[] Factor(double[] roots)
    {
        var matrix = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                matrix[i * n + j] = roots[i] * covariance[i * n + j] * roots[j];
            }

            matrix[i * n + i] += 1;
        }

        // 1 plus a covariance: positive definite but for rounding.
        return SymmetricMatrix.Factor(matrix, n)
            ? matrix
            : throw new InvalidOperationException("The covariance of the severity is none.");
    }

    private double[] Deviations(double[] factor, double[] roots)
    {
        var scaled = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                scaled[i * n + j] = roots[i] * covariance[i * n + j];
            }
        }

        SymmetricMatrix.SolveLower(factor, n, scaled, n);
        var sd = new double[n];
        for (var j = 0; j < n; j++)
        {
            sd[j] = covariance[j * n + j];
        }

        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                sd[j] -= scaled[i * n + j] * scaled[i * n + j];
            }
        }

        return [.. sd.Select(v => Math.Sqrt(Math.Max(0, v)))];
    }

    private double[] Times(double[] vector)
    {
        var result = new double[n];
        for (var i = 0; i < n; i++)
        {
            var sum = 0.0;
            for (var j = 0; j < n; j++)
            {
                sum += covariance[i * n + j] * vector[j];
            }

            result[i] = sum;
        }

        return result;
    }
}
