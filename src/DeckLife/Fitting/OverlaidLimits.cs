using DeckLife.Numerics.LeastSquares;
using MathNet.Numerics.LinearAlgebra;

namespace DeckLife.Fitting;

/// <summary>Limits and errors of an overlaid fit about its optimum.</summary>
internal sealed class OverlaidLimits
{
    private const int MostParabolas = 8;

    private readonly (double Low, double High) _interval;
    private readonly double _threshold;

    public OverlaidLimits(
        OverlaidModel model,
        (double Overlay, double Deck) at,
        (double Low, double High) interval
    )
    {
        (Model, At, _interval) = (model, at, interval);
        Contents = new double[model.Residuals];
        Point = model.Fitted(at.Overlay, at.Deck, Contents);
        DegreesOfFreedom = model.Residuals - 2 - model.LinearParameters;
        Student = LimitCut.TwoSided95(DegreesOfFreedom).Student;
        _threshold = Point.Sum * (1 + (Student * Student / DegreesOfFreedom));
    }

    /// <summary>The model.</summary>
    public OverlaidModel Model { get; }

    /// <summary>The optimum in ln D.</summary>
    public (double Overlay, double Deck) At { get; }

    /// <summary>Its linear part.</summary>
    public OverlaidPoint Point { get; }

    /// <summary>The fitted contents of the slices [kg/m³].</summary>
    public double[] Contents { get; }

    /// <summary>Slices less free parameters.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>Quantile of Student's t for two-sided 95 % limits.</summary>
    public double Student { get; }

    /// <summary>Standard deviation of the residuals [kg/m³].</summary>
    public double Scale => Math.Sqrt(Point.Sum / DegreesOfFreedom);

    /// <summary>The search interval of D [mm²/yr].</summary>
    public (double Low, double High) Interval =>
        (Math.Exp(_interval.Low), Math.Exp(_interval.High));

    /// <summary>Walks outwards in ln D of one layer, the other following, until the sum of squares crosses the cut.</summary>
    public double? Of(bool overlay, bool upper)
    {
        var other = overlay ? At.Deck : At.Overlay;
        double Above(double x) => Follow(x, overlay, ref other) - _threshold;
        var centre = overlay ? At.Overlay : At.Deck;
        var inside = centre;
        var insideValue = -_threshold;
        var end = upper ? _interval.High : _interval.Low;
        for (var step = 0.05; step < 100; step *= 1.6)
        {
            var next = upper ? Math.Min(end, centre + step) : Math.Max(end, centre - step);
            var value = Above(next);
            if (value > 0)
            {
                return Math.Exp(BracketedZero.Find(Above, inside, next, insideValue, value, 1e-6));
            }

            if (next == end)
            {
                return null;
            }

            (inside, insideValue) = (next, Math.Min(value, -double.Epsilon));
        }

        return null;
    }

    /// <summary>Standard errors of (ln D overlay, ln D deck, Cs, old surface content, C0); 0 for what is not free. Absent where singular.</summary>
    public double[]? Errors(bool hasOld, bool hasBackground)
    {
        int[] free =
        [
            0,
            1,
            2,
            .. hasOld ? [3] : Array.Empty<int>(),
            .. hasBackground ? [4] : Array.Empty<int>(),
        ];
        var rows = Model.Derivatives(At.Overlay, At.Deck, Point);
        var information = Matrix<double>.Build.Dense(free.Length, free.Length);
        for (var i = 0; i < Model.Residuals; i++)
        {
            for (var j = 0; j < free.Length; j++)
            {
                for (var k = 0; k < free.Length; k++)
                {
                    information[j, k] += rows[(5 * i) + free[j]] * rows[(5 * i) + free[k]];
                }
            }
        }

        var root = information.Diagonal().PointwiseSqrt();
        if (root.Any(r => !(r > 0)))
        {
            return null;
        }

        var scaled = information.PointwiseDivide(root.OuterProduct(root));
        if (scaled.Determinant() <= 1e-13)
        {
            return null;
        }

        var inverse = scaled.Inverse();
        var errors = new double[5];
        for (var j = 0; j < free.Length; j++)
        {
            errors[free[j]] = Scale * Math.Sqrt(inverse[j, j]) / root[j];
        }

        return errors;
    }

    // The least sum of squares over the other layer's ln D: downhill from where it was last, then parabolas through the three lowest.
    private double Follow(double x, bool overlay, ref double other)
    {
        double SumAt(double y) => overlay ? Model.At(x, y).Sum : Model.At(y, x).Sum;
        const double step = 0.1;
        var (left, middle, right) = (other - step, other, other + step);
        var (fl, fm, fr) = (SumAt(left), SumAt(middle), SumAt(right));
        for (var reach = step; fl < fm || fr < fm; reach *= 1.6)
        {
            if (fl < fm)
            {
                (right, fr, middle, fm) = (middle, fm, left, fl);
                left = middle - (1.6 * reach);
                fl = SumAt(left);
            }
            else
            {
                (left, fl, middle, fm) = (middle, fm, right, fr);
                right = middle + (1.6 * reach);
                fr = SumAt(right);
            }

            if (middle < _interval.Low || middle > _interval.High)
            {
                break;
            }
        }

        for (var i = 0; i < MostParabolas && right - left > 1e-3; i++)
        {
            var (a, b) = ((middle - left) * (fm - fr), (middle - right) * (fm - fl));
            var next =
                a != b
                    ? middle - (0.5 * (((middle - left) * a) - ((middle - right) * b)) / (a - b))
                    : 0.5 * (left + right);
            if (!(next > left && next < right) || Math.Abs(next - middle) < 1e-4)
            {
                // Too near to tell: into the wider side.
                next =
                    right - middle > middle - left
                        ? middle + (0.1 * (right - middle))
                        : middle - (0.1 * (middle - left));
            }

            var f = SumAt(next);
            if (f < fm)
            {
                (left, fl, right, fr) =
                    next < middle ? (left, fl, middle, fm) : (middle, fm, right, fr);
                (middle, fm) = (next, f);
            }
            else if (next < middle)
            {
                (left, fl) = (next, f);
            }
            else
            {
                (right, fr) = (next, f);
            }
        }

        other = middle;
        return fm;
    }
}
