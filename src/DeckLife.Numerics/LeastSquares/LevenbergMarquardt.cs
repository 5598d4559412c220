namespace DeckLife.Numerics.LeastSquares;

/// <summary>Nonlinear least squares by damped Gauss-Newton steps, each solved by orthogonal triangularisation.</summary>
/// <remarks>
/// Method: step of min |J p + r|² + lambda |D p|², D the largest column norms so far, slowly forgotten; lambda by the ratio of actual to predicted decrease.
/// Source: Marquardt, J. SIAM 11 (1963) 431; Moré, "The Levenberg-Marquardt algorithm: implementation and theory", Lecture Notes in
/// Mathematics 630 (1978) 105; the update of lambda of Nielsen, "Damping parameter in Marquardt's method", report IMM-REP-1999-05.
/// Accuracy: on the 27 nonlinear problems of the NIST Statistical Reference Datasets see the reference checks under nist.
/// Checked by: LevenbergMarquardtTests, NistTests.
/// </remarks>
public sealed class LevenbergMarquardt
{
    // How much of a larger earlier column norm is kept: all of it would freeze a parameter that has once been huge.
    private const double ScaleMemory = 0.9;

    /// <summary>Most accepted and rejected steps together.</summary>
    public int MostSteps { get; init; } = 20_000;

    /// <summary>The first damping: large, so that a far start begins with short steps downhill.</summary>
    public double FirstDamping { get; init; } = 100;

    /// <summary>Steps and decreases below this share end the run.</summary>
    public double Tolerance { get; init; } = 1e-15;

    /// <summary>Minimises the sum of squares.</summary>
    /// <param name="model">The problem.</param>
    /// <param name="start">Starting parameters.</param>
    public LeastSquaresResult Minimise(ILeastSquaresModel model, ReadOnlySpan<double> start)
    {
        ArgumentNullException.ThrowIfNull(model);
        var (m, n) = (model.Residuals, model.Parameters);
        var at = start.ToArray();
        var residuals = new double[m];
        var jacobian = new double[m * n];
        model.Evaluate(at, residuals, jacobian);
        var sum = SumOfSquares(residuals);
        if (!double.IsFinite(sum) || !AllFinite(jacobian))
        {
            return Result(LeastSquaresStatus.NotFinite, at, sum, m - n, 0) with
            {
                MissingReason = "residuals or derivatives are not finite at the start",
            };
        }

        var scale = new double[n];
        var step = new double[n];
        var trial = new double[n];
        var trialResiduals = new double[m];
        var trialJacobian = new double[m * n];
        var work = new double[(m + n) * n];
        var right = new double[m + n];
        var (lambda, grow) = (FirstDamping, 2.0);
        var accepted = 0;
        var small = 0;
        GrowScale(jacobian, scale, m, n);
        for (var tried = 0; tried < MostSteps; tried++)
        {
            if (
                !DampedStep(jacobian, residuals, scale, lambda, work, right, step, m, n)
                || lambda > 1e60
            )
            {
                break;
            }

            var predicted = PredictedDecrease(jacobian, residuals, step, sum, m, n);
            var tiny = IsTiny(step, at, n) || predicted <= Tolerance * Tolerance * sum;
            for (var j = 0; j < n; j++)
            {
                trial[j] = at[j] + step[j];
            }

            model.Evaluate(trial, trialResiduals, trialJacobian);
            var trialSum = SumOfSquares(trialResiduals);
            var usable = double.IsFinite(trialSum) && AllFinite(trialJacobian);
            if (usable && trialSum < sum)
            {
                var ratio = (sum - trialSum) / Math.Max(predicted, double.Epsilon);
                (at, trial) = (trial, at);
                (residuals, trialResiduals) = (trialResiduals, residuals);
                (jacobian, trialJacobian) = (trialJacobian, jacobian);
                var decrease = sum - trialSum;
                sum = trialSum;
                accepted++;
                GrowScale(jacobian, scale, m, n);
                var cube = Math.Pow((2 * ratio) - 1, 3);
                lambda *= Math.Max(1.0 / 5, 1 - cube);
                lambda = Math.Max(lambda, 1e-30);
                grow = 2;
                small = decrease <= Tolerance * sum ? small + 1 : 0;
                if (tiny || small >= 8 || sum == 0)
                {
                    return Finish(
                        LeastSquaresStatus.Converged,
                        at,
                        residuals,
                        jacobian,
                        accepted,
                        m,
                        n
                    );
                }
            }
            else
            {
                if (tiny)
                {
                    return Finish(
                        LeastSquaresStatus.Converged,
                        at,
                        residuals,
                        jacobian,
                        accepted,
                        m,
                        n
                    );
                }

                lambda *= grow;
                grow *= 2;
            }
        }

        return Finish(LeastSquaresStatus.IterationLimit, at, residuals, jacobian, accepted, m, n);
    }

    private static LeastSquaresResult Finish(
        LeastSquaresStatus status,
        double[] at,
        double[] residuals,
        double[] jacobian,
        int accepted,
        int m,
        int n
    )
    {
        var sum = SumOfSquares(residuals);
        var result = Result(status, at, sum, m - n, accepted);
        if (m <= n)
        {
            return result with { MissingReason = "no degrees of freedom are left for an error" };
        }

        var covariance = Covariance(jacobian, sum / (m - n), m, n);
        return covariance is null
            ? result with
            {
                MissingReason =
                    "the derivatives are linearly dependent: a parameter is not determined",
            }
            : result with
            {
                Covariance = [.. covariance],
                StandardErrors =
                [
                    .. Enumerable.Range(0, n).Select(j => Math.Sqrt(covariance[(j * n) + j])),
                ],
            };
    }

    private static LeastSquaresResult Result(
        LeastSquaresStatus status,
        double[] at,
        double sum,
        int degreesOfFreedom,
        int accepted
    ) =>
        new()
        {
            Status = status,
            Parameters = [.. at],
            SumOfSquares = sum,
            DegreesOfFreedom = degreesOfFreedom,
            Iterations = accepted,
        };

    // s² (R R^T)^-1 with columns scaled to unit length first, so that units do not matter.
    private static double[]? Covariance(double[] jacobian, double variance, int m, int n)
    {
        var a = (double[])jacobian.Clone();
        var norm = new double[n];
        GrowScale(jacobian, norm, m, n);
        for (var i = 0; i < m; i++)
        {
            for (var j = 0; j < n; j++)
            {
                a[(i * n) + j] /= norm[j];
            }
        }

        HouseholderQr.Triangularise(a, new double[m], m, n);
        var inverse = new double[n * n];
        var unit = new double[n];
        var column = new double[n];
        for (var k = 0; k < n; k++)
        {
            if (Math.Abs(a[(k * n) + k]) < 1e-15)
            {
                return null;
            }

            Array.Clear(unit);
            unit[k] = 1;
            HouseholderQr.Solve(a, unit, n, column);
            for (var j = 0; j < n; j++)
            {
                inverse[(j * n) + k] = column[j];
            }
        }

        var covariance = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                var sum = 0.0;
                for (var k = Math.Max(i, j); k < n; k++)
                {
                    sum += inverse[(i * n) + k] * inverse[(j * n) + k];
                }

                covariance[(i * n) + j] = variance * sum / (norm[i] * norm[j]);
            }
        }

        return covariance;
    }

    private static bool DampedStep(
        double[] jacobian,
        double[] residuals,
        double[] scale,
        double lambda,
        double[] work,
        double[] right,
        double[] step,
        int m,
        int n
    )
    {
        // Columns scaled: the damping is then lambda on the diagonal.
        var root = Math.Sqrt(lambda);
        for (var i = 0; i < m; i++)
        {
            for (var j = 0; j < n; j++)
            {
                work[(i * n) + j] = jacobian[(i * n) + j] / scale[j];
            }

            right[i] = -residuals[i];
        }

        Array.Clear(work, m * n, n * n);
        for (var j = 0; j < n; j++)
        {
            work[((m + j) * n) + j] = root;
            right[m + j] = 0;
        }

        HouseholderQr.Triangularise(work, right, m + n, n);
        if (!HouseholderQr.Solve(work, right, n, step))
        {
            return false;
        }

        for (var j = 0; j < n; j++)
        {
            step[j] /= scale[j];
        }

        return true;
    }

    private static double PredictedDecrease(
        double[] jacobian,
        double[] residuals,
        double[] step,
        double sum,
        int m,
        int n
    )
    {
        var linear = 0.0;
        for (var i = 0; i < m; i++)
        {
            var change = 0.0;
            for (var j = 0; j < n; j++)
            {
                change += jacobian[(i * n) + j] * step[j];
            }

            // |r|² - |r + Jp|² summed row by row, so that it keeps its digits when both are nearly equal.
            linear -= change * ((2 * residuals[i]) + change);
        }

        return Math.Min(linear, sum);
    }

    private bool IsTiny(double[] step, double[] at, int n)
    {
        for (var j = 0; j < n; j++)
        {
            if (Math.Abs(step[j]) > Tolerance * Math.Abs(at[j]))
            {
                return false;
            }
        }

        return true;
    }

    private static void GrowScale(double[] jacobian, double[] scale, int m, int n)
    {
        for (var j = 0; j < n; j++)
        {
            var sum = 0.0;
            for (var i = 0; i < m; i++)
            {
                sum += jacobian[(i * n) + j] * jacobian[(i * n) + j];
            }

            scale[j] = Math.Max(ScaleMemory * scale[j], Math.Sqrt(sum));
            if (scale[j] == 0)
            {
                scale[j] = 1;
            }
        }
    }

    private static double SumOfSquares(double[] residuals)
    {
        var sum = 0.0;
        foreach (var r in residuals)
        {
            sum += r * r;
        }

        return sum;
    }

    private static bool AllFinite(double[] values)
    {
        foreach (var v in values)
        {
            if (!double.IsFinite(v))
            {
                return false;
            }
        }

        return true;
    }
}
