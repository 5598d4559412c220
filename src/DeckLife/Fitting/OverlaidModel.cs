using DeckLife.Numerics.LeastSquares;

namespace DeckLife.Fitting;

/// <summary>
/// Least squares of an overlaid core in (ln D of the overlay, ln D of the deck), the linear part (Cs - C0, old surface content - C0, C0) solved
/// exactly, all at least 0.
/// </summary>
internal sealed class OverlaidModel : ILeastSquaresModel
{
    // Coefficients and their ratio are numbers up to here, with room for the squares of lengths: a search that runs beyond steps back.
    private const double MostLog = 150;

    private const double Step = 1e-5;
    private readonly OverlaidShares _shares;
    private readonly double? _held;
    private readonly double[] _new;
    private readonly double[] _old;

    public OverlaidModel(OverlaidShares shares, double? held)
    {
        (_shares, _held) = (shares, held);
        _new = new double[shares.Count];
        _old = new double[shares.Count];
    }

    /// <inheritdoc/>
    public int Residuals => _shares.Count;

    /// <inheritdoc/>
    public int Parameters => 2;

    /// <summary>The linear part of the model's parameters: salt through the overlay, salt from before it, background.</summary>
    public int LinearParameters => 1 + (_shares.HasOldSalt ? 1 : 0) + (_held is null ? 1 : 0);

    /// <summary>The best linear part and its sum of squares.</summary>
    public OverlaidPoint At(double lnOverlay, double lnDeck)
    {
        _shares.New(lnOverlay, lnDeck, _new);
        _shares.Old(lnOverlay, lnDeck, _old);
        // All subsets of the free parts, the largest first: the best whose parts are all at least 0.
        OverlaidPoint? best = null;
        var (backgrounds, olds) = (_held is null ? 2 : 1, _shares.HasOldSalt ? 2 : 1);
        for (var subset = 0; subset < 2 * olds * backgrounds; subset++)
        {
            var point = Solve(
                (subset & 1) == 0,
                olds == 2 && (subset / 2 % 2) == 0,
                subset >= 2 * olds
            );
            if (point is { } p && (best is null || p.Sum < best.Value.Sum))
            {
                best = p;
            }
        }

        return best!.Value;
    }

    /// <inheritdoc/>
    public void Evaluate(
        ReadOnlySpan<double> parameters,
        Span<double> residuals,
        Span<double> jacobian
    )
    {
        var fitted = new double[Residuals];
        Fitted(parameters[0], parameters[1], fitted);
        for (var i = 0; i < fitted.Length; i++)
        {
            residuals[i] = fitted[i] - _shares.Content(i);
        }

        if (jacobian.IsEmpty)
        {
            return;
        }

        var above = new double[Residuals];
        var below = new double[Residuals];
        for (var j = 0; j < 2; j++)
        {
            var (a, b) = j == 0 ? (Step, 0.0) : (0.0, Step);
            Fitted(parameters[0] + a, parameters[1] + b, above);
            Fitted(parameters[0] - a, parameters[1] - b, below);
            for (var i = 0; i < Residuals; i++)
            {
                jacobian[(2 * i) + j] = (above[i] - below[i]) / (2 * Step);
            }
        }
    }

    /// <summary>The contents of the slices at the best linear part [kg/m³]; not numbers where the coefficients leave the range of numbers.</summary>
    public OverlaidPoint Fitted(double lnOverlay, double lnDeck, Span<double> content)
    {
        if (!(Math.Abs(lnOverlay) < MostLog && Math.Abs(lnDeck) < MostLog))
        {
            content.Fill(double.NaN);
            return default;
        }

        var point = At(lnOverlay, lnDeck);
        for (var i = 0; i < content.Length; i++)
        {
            content[i] = point.Background + (point.Excess * _new[i]) + (point.OldExcess * _old[i]);
        }

        return point;
    }

    /// <summary>Derivatives of the slices' contents by (ln D overlay, ln D deck, Cs, old surface content, C0), five a row.</summary>
    public double[] Derivatives(double lnOverlay, double lnDeck, OverlaidPoint point)
    {
        var n = Residuals;
        var rows = new double[5 * n];
        var buffers = (new double[n], new double[n], new double[n], new double[n]);
        for (var j = 0; j < 2; j++)
        {
            var (a, b) = j == 0 ? (Step, 0.0) : (0.0, Step);
            var (newAbove, newBelow, oldAbove, oldBelow) = buffers;
            _shares.New(lnOverlay + a, lnDeck + b, newAbove);
            _shares.New(lnOverlay - a, lnDeck - b, newBelow);
            _shares.Old(lnOverlay + a, lnDeck + b, oldAbove);
            _shares.Old(lnOverlay - a, lnDeck - b, oldBelow);
            for (var i = 0; i < n; i++)
            {
                rows[(5 * i) + j] =
                    (
                        (point.Excess * (newAbove[i] - newBelow[i]))
                        + (point.OldExcess * (oldAbove[i] - oldBelow[i]))
                    ) / (2 * Step);
            }
        }

        _shares.New(lnOverlay, lnDeck, buffers.Item1);
        _shares.Old(lnOverlay, lnDeck, buffers.Item2);
        for (var i = 0; i < n; i++)
        {
            rows[(5 * i) + 2] = buffers.Item1[i];
            rows[(5 * i) + 3] = buffers.Item2[i];
            rows[(5 * i) + 4] = 1 - buffers.Item1[i] - buffers.Item2[i];
        }

        return rows;
    }

    // Least squares by orthogonal columns in turn; the constant first, so that the others are centred. Absent where a part is below 0.
    private OverlaidPoint? Solve(bool hasNew, bool hasOld, bool noBackground)
    {
        var n = _new.Length;
        var columns = new List<(int Part, double[] Column)>(3);
        if (_held is null && !noBackground)
        {
            var one = new double[n];
            Array.Fill(one, 1);
            columns.Add((2, one));
        }

        if (hasNew)
        {
            columns.Add((0, (double[])_new.Clone()));
        }

        if (hasOld)
        {
            columns.Add((1, (double[])_old.Clone()));
        }

        var residual = new double[n];
        for (var i = 0; i < n; i++)
        {
            residual[i] = _shares.Content(i) - (_held ?? 0);
        }

        var size = columns.Count;
        var upper = new double[size, size];
        var right = new double[size];
        for (var j = 0; j < size; j++)
        {
            var q = columns[j].Column;
            var before = Dot(q, q);
            for (var k = 0; k < j; k++)
            {
                upper[k, j] = Remove(q, columns[k].Column);
            }

            var norm = Math.Sqrt(Dot(q, q));
            if (!(norm > 1e-7 * Math.Sqrt(before)))
            {
                return null;
            }

            for (var i = 0; i < n; i++)
            {
                q[i] /= norm;
            }

            upper[j, j] = norm;
            right[j] = Remove(residual, q);
        }

        var parts = new double[3];
        for (var j = size - 1; j >= 0; j--)
        {
            var value = right[j];
            for (var k = j + 1; k < size; k++)
            {
                value -= upper[j, k] * parts[columns[k].Part];
            }

            value /= upper[j, j];
            if (value < 0)
            {
                return null;
            }

            parts[columns[j].Part] = value;
        }

        return new OverlaidPoint(Dot(residual, residual), parts[0], parts[1], _held ?? parts[2]);
    }

    private static double Remove(double[] from, double[] unit)
    {
        var part = Dot(from, unit);
        for (var i = 0; i < from.Length; i++)
        {
            from[i] -= part * unit[i];
        }

        return part;
    }

    private static double Dot(double[] one, double[] other)
    {
        var sum = 0.0;
        for (var i = 0; i < one.Length; i++)
        {
            sum += one[i] * other[i];
        }

        return sum;
    }
}
