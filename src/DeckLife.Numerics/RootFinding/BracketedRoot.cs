namespace DeckLife.Numerics.RootFinding;

/// <summary>Roots between two ends of opposite sign.</summary>
/// <remarks>Method: Chandrupatla 1997 (Advances in Engineering Software 28:145-149): inverse quadratic steps where they are safe, else bisection.</remarks>
public static class BracketedRoot
{
    /// <summary>The root of a continuous function between two arguments.</summary>
    /// <param name="function">f.</param>
    /// <param name="low">One end.</param>
    /// <param name="high">The other end; f has the opposite sign there, or is 0.</param>
    /// <param name="tolerance">Absolute tolerance on the argument; rounding of the argument is added.</param>
    /// <param name="root">The root, where there is one.</param>
    /// <returns>Whether the ends had opposite signs (or one was a root).</returns>
    public static bool TryFind(
        Func<double, double> function,
        double low,
        double high,
        double tolerance,
        out double root
    )
    {
        ArgumentNullException.ThrowIfNull(function);
        var (b, fb) = (low, function(low));
        var (a, fa) = (high, function(high));
        root = Math.Abs(fa) < Math.Abs(fb) ? a : b;
        if (fa == 0 || fb == 0)
        {
            return true;
        }

        if (!(fa * fb < 0))
        {
            return false;
        }

        var t = 0.5;
        for (var i = 0; i < 200; i++)
        {
            var x = a + (t * (b - a));
            var fx = function(x);
            double c;
            double fc;
            if (Math.Sign(fx) == Math.Sign(fa))
            {
                (c, fc) = (a, fa);
            }
            else
            {
                (c, fc) = (b, fb);
                (b, fb) = (a, fa);
            }

            (a, fa) = (x, fx);
            root = Math.Abs(fa) < Math.Abs(fb) ? a : b;
            var allowed = tolerance + (4e-16 * Math.Abs(root));
            var share = allowed / Math.Abs(b - a);
            if (share > 0.5 || fx == 0)
            {
                break;
            }

            var xi = (a - b) / (c - b);
            var phi = (fa - fb) / (fc - fb);
            t =
                phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi
                    ? (fa / (fb - fa) * (fc / (fb - fc)))
                        + ((c - a) / (b - a) * (fa / (fc - fa)) * (fb / (fc - fb)))
                    : 0.5;
            t = Math.Clamp(t, share, 1 - share);
        }

        return true;
    }
}
