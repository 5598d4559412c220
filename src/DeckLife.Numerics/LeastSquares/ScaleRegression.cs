namespace DeckLife.Numerics.LeastSquares;

/// <summary>
/// Minimises the negative log-likelihood of a linear model with unknown scale, bounded coefficients and values known
/// only to lie below a limit, in the coordinates (coefficients, 1) / scale, in which the normal case is convex.
/// </summary>
/// <remarks>
/// Equation: Q(v) = -m ln(h(v)) + sum over measured rho(u) + sum over censored kappa(u), u = offset + row · v,
/// h(v) = inverseScale · v, 0 ≤ v. Normal: rho = u²/2, kappa = -ln Phi(u). Student: rho = (nu+1)/2 ln(1 + u²/nu), kappa = -ln T(u).
/// Source: Olsen, "Note on the uniqueness of the maximum likelihood estimator for the Tobit model", Econometrica 46 (1978) 1211;
/// Bertsekas, "Projected Newton methods for optimization problems with simple constraints", SIAM J. Control Optim. 20 (1982) 221.
/// Checked by: ScaleRegressionTests.
/// </remarks>
public sealed class ScaleRegression
{
    private readonly int _unknowns;
    private readonly double[] _gradient;
    private readonly double[] _trial;
    private readonly double[] _step;
    private readonly double[] _hessian;
    private readonly bool[] _held;

    /// <summary>Makes a solver for problems of a given size.</summary>
    /// <param name="unknowns">Number of coefficients, 1 to 8.</param>
    public ScaleRegression(int unknowns)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(unknowns);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(unknowns, 8);
        _unknowns = unknowns;
        _gradient = new double[unknowns];
        _trial = new double[unknowns];
        _step = new double[unknowns];
        _hessian = new double[unknowns * unknowns];
        _held = new bool[unknowns];
    }

    /// <summary>Degrees of freedom of Student's t; absent: normal errors.</summary>
    public double? StudentDegreesOfFreedom { get; init; }

    /// <summary>The factor m of ln(scale); 0 when the scale is known.</summary>
    public double ScaleCount { get; init; }

    /// <summary>Minimises Q.</summary>
    /// <param name="rows">One row of length <c>unknowns</c> an observation, row-major, already multiplied by the square root of its weight.</param>
    /// <param name="offsets">The constant part of each residual.</param>
    /// <param name="kinds">Measured or censored.</param>
    /// <param name="inverseScale">The linear form that gives 1/scale; ignored when <see cref="ScaleCount"/> is 0.</param>
    /// <param name="v">Start (admissible), and the minimum on return.</param>
    /// <returns>The minimum of Q, and whether the projected gradient vanished.</returns>
    public (double Value, bool Converged) Minimise(
        ReadOnlySpan<double> rows,
        ReadOnlySpan<double> offsets,
        ReadOnlySpan<ScaleRegressionRow> kinds,
        ReadOnlySpan<double> inverseScale,
        Span<double> v
    )
    {
        var value = Evaluate(rows, offsets, kinds, inverseScale, v, derivatives: true);
        for (var iteration = 0; iteration < 200; iteration++)
        {
            for (var j = 0; j < _unknowns; j++)
            {
                _held[j] = v[j] <= 0 && _gradient[j] > 0;
            }

            var decrease = SolveStep();
            if (decrease <= 1e-26 * (1 + Math.Abs(value)))
            {
                return (value, true);
            }

            // Backtracking along the projected path.
            var moved = false;
            var length = 1.0;
            var before = value;
            var isKnown = false;
            for (var trial = 0; trial < 60; trial++, length *= 0.5)
            {
                for (var j = 0; j < _unknowns; j++)
                {
                    _trial[j] = _held[j] ? 0 : Math.Max(0, v[j] + (length * _step[j]));
                }

                // The whole step mostly serves: its derivatives are then those of the next iteration.
                var next = Evaluate(
                    rows,
                    offsets,
                    kinds,
                    inverseScale,
                    _trial,
                    derivatives: trial == 0
                );
                if (next <= value - (1e-4 * length * decrease) || (next <= value && length == 1))
                {
                    moved = next < value || trial == 0;
                    isKnown = trial == 0;
                    value = next;
                    _trial.AsSpan(0, _unknowns).CopyTo(v);
                    break;
                }
            }

            if (!isKnown)
            {
                value = Evaluate(rows, offsets, kinds, inverseScale, v, derivatives: true);
            }

            if (!moved || (before - value <= 4e-16 * Math.Abs(before) && decrease < 1e-13))
            {
                return (value, decrease < 1e-8 * (1 + Math.Abs(value)));
            }
        }

        return (value, false);
    }

    private double Evaluate(
        ReadOnlySpan<double> rows,
        ReadOnlySpan<double> offsets,
        ReadOnlySpan<ScaleRegressionRow> kinds,
        ReadOnlySpan<double> inverseScale,
        ReadOnlySpan<double> v,
        bool derivatives
    )
    {
        if (derivatives)
        {
            Array.Clear(_gradient);
            Array.Clear(_hessian);
        }

        var value = 0.0;
        if (ScaleCount > 0)
        {
            var h = 0.0;
            for (var j = 0; j < _unknowns; j++)
            {
                h += inverseScale[j] * v[j];
            }

            if (!(h > 0))
            {
                return double.PositiveInfinity;
            }

            value -= ScaleCount * Math.Log(h);
            if (derivatives)
            {
                Accumulate(inverseScale, -ScaleCount / h, ScaleCount / (h * h));
            }
        }

        for (var i = 0; i < kinds.Length; i++)
        {
            var row = rows.Slice(i * _unknowns, _unknowns);
            var u = offsets[i];
            for (var j = 0; j < _unknowns; j++)
            {
                u += row[j] * v[j];
            }

            value += ResidualLoss.Value(
                u,
                kinds[i] == ScaleRegressionRow.Below,
                StudentDegreesOfFreedom,
                out var first,
                out var second
            );
            if (derivatives)
            {
                Accumulate(row, first, second);
            }
        }

        return value;
    }

    private void Accumulate(ReadOnlySpan<double> row, double first, double second)
    {
        for (var j = 0; j < _unknowns; j++)
        {
            _gradient[j] += first * row[j];
            for (var k = 0; k <= j; k++)
            {
                _hessian[(j * _unknowns) + k] += second * row[j] * row[k];
            }
        }
    }

    // Newton step on the coefficients that are not held, by Cholesky with a small ridge where the matrix needs it.
    private double SolveStep()
    {
        Span<double> factor = stackalloc double[_unknowns * _unknowns];
        Span<int> free = stackalloc int[_unknowns];
        var count = 0;
        for (var j = 0; j < _unknowns; j++)
        {
            _step[j] = 0;
            if (!_held[j])
            {
                free[count++] = j;
            }
        }

        for (var ridge = 0.0; ridge < 1e3; ridge = ridge == 0 ? 1e-14 : ridge * 100)
        {
            if (Factor(free[..count], factor, ridge))
            {
                break;
            }
        }

        Span<double> z = stackalloc double[count];
        for (var a = 0; a < count; a++)
        {
            var sum = -_gradient[free[a]];
            for (var b = 0; b < a; b++)
            {
                sum -= factor[(a * _unknowns) + b] * z[b];
            }

            z[a] = sum / factor[(a * _unknowns) + a];
        }

        var decrease = 0.0;
        for (var a = count - 1; a >= 0; a--)
        {
            decrease += z[a] * z[a];
        }

        for (var a = count - 1; a >= 0; a--)
        {
            var sum = z[a];
            for (var b = a + 1; b < count; b++)
            {
                sum -= factor[(b * _unknowns) + a] * _step[free[b]];
            }

            _step[free[a]] = sum / factor[(a * _unknowns) + a];
        }

        return decrease;
    }

    private bool Factor(ReadOnlySpan<int> free, Span<double> factor, double ridge)
    {
        for (var a = 0; a < free.Length; a++)
        {
            for (var b = 0; b <= a; b++)
            {
                var sum = _hessian[(free[a] * _unknowns) + free[b]];
                if (a == b)
                {
                    sum = (sum * (1 + ridge)) + double.Epsilon;
                }

                for (var c = 0; c < b; c++)
                {
                    sum -= factor[(a * _unknowns) + c] * factor[(b * _unknowns) + c];
                }

                if (a == b)
                {
                    if (!(sum > 0))
                    {
                        return false;
                    }

                    factor[(a * _unknowns) + a] = Math.Sqrt(sum);
                }
                else
                {
                    factor[(a * _unknowns) + b] = sum / factor[(b * _unknowns) + b];
                }
            }
        }

        return true;
    }
}
