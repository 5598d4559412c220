namespace DeckLife.Numerics.LeastSquares;

/// <summary>The zero of a continuous function between two points where its signs differ.</summary>
public static class BracketedZero
{
    /// <summary>Finds the zero.</summary>
    /// <param name="function">The function.</param>
    /// <param name="left">One end.</param>
    /// <param name="right">The other end.</param>
    /// <param name="atLeft">The function at <paramref name="left"/>.</param>
    /// <param name="atRight">The function at <paramref name="right"/>, of the other sign.</param>
    /// <param name="tolerance">Absolute tolerance of the zero.</param>
    /// <returns>The zero; the better end when the signs do not differ.</returns>
    /// <remarks>
    /// Method: bisection, secant and inverse quadratic steps. Source: Brent, Algorithms for Minimization without
    /// Derivatives (1973), chapter 4. Checked by: BracketedZeroTests.
    /// </remarks>
    public static double Find(
        Func<double, double> function,
        double left,
        double right,
        double atLeft,
        double atRight,
        double tolerance
    )
    {
        ArgumentNullException.ThrowIfNull(function);
        if (atLeft == 0 || atRight == 0 || Math.Sign(atLeft) == Math.Sign(atRight))
        {
            return Math.Abs(atLeft) <= Math.Abs(atRight) ? left : right;
        }

        var (a, fa, b, fb) = (left, atLeft, right, atRight);
        var (c, fc) = (a, fa);
        var step = b - a;
        var earlier = step;
        for (var iteration = 0; iteration < 200; iteration++)
        {
            if (Math.Abs(fc) < Math.Abs(fb))
            {
                (a, b, c) = (b, c, b);
                (fa, fb, fc) = (fb, fc, fb);
            }

            var near = (2.2e-16 * Math.Abs(b)) + (0.5 * tolerance);
            var half = 0.5 * (c - b);
            if (Math.Abs(half) <= near || fb == 0)
            {
                return b;
            }

            if (Math.Abs(earlier) < near || Math.Abs(fa) <= Math.Abs(fb))
            {
                step = earlier = half;
            }
            else
            {
                var (p, q) = Interpolate(a, fa, b, fb, c, fc, half);
                if (2 * p < Math.Min((3 * half * q) - Math.Abs(near * q), Math.Abs(earlier * q)))
                {
                    earlier = step;
                    step = p / q;
                }
                else
                {
                    step = earlier = half;
                }
            }

            (a, fa) = (b, fb);
            b += Math.Abs(step) > near ? step : Math.CopySign(near, half);
            fb = function(b);
            if (Math.Sign(fb) == Math.Sign(fc))
            {
                (c, fc) = (a, fa);
                step = earlier = b - a;
            }
        }

        return b;
    }

    private static (double P, double Q) Interpolate(
        double a,
        double fa,
        double b,
        double fb,
        double c,
        double fc,
        double half
    )
    {
        double p;
        double q;
        var s = fb / fa;
        if (a == c)
        {
            p = 2 * half * s;
            q = 1 - s;
        }
        else
        {
            var t = fa / fc;
            var r = fb / fc;
            p = s * ((2 * half * t * (t - r)) - ((b - a) * (r - 1)));
            q = (t - 1) * (r - 1) * (s - 1);
        }

        return p > 0 ? (p, -q) : (-p, q);
    }
}
