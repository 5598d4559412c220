namespace DeckLife.Numerics.LinearMixed;

/// <summary>Minimises a function of a few variables by the simplex of Nelder and Mead, restarted until a restart gains nothing.</summary>
/// <remarks>
/// Source: Nelder and Mead, A simplex method for function minimization (Computer Journal 7, 1965). Kept for the covariance of a mixed model:
/// three variables, a smooth function, and an optimum that may lie at the edge where derivatives vanish.
/// </remarks>
internal static class SimplexSearch
{
    /// <summary>Finds a minimum.</summary>
    /// <param name="function">The function; positive infinity where it doesn't exist.</param>
    /// <param name="start">Where to start; not changed.</param>
    /// <param name="size">Edge of the first simplex.</param>
    /// <param name="tolerance">Spread of the variables at which a search ends.</param>
    /// <returns>The place, its value and whether the search ended by its tolerance.</returns>
    public static (double[] Place, double Value, bool Converged) Minimize(
        Func<double[], double> function,
        double[] start,
        double size,
        double tolerance
    )
    {
        var best = (double[])start.Clone();
        var value = function(best);
        var converged = false;
        for (var restart = 0; restart < 12; restart++)
        {
            var (place, found, ended) = Once(
                function,
                best,
                size * Math.Pow(0.5, restart),
                tolerance
            );
            var gain = value - found;
            best = place;
            value = found;
            converged = ended;
            if (restart > 0 && ended && gain < 1e-13 * (1 + Math.Abs(value)))
            {
                break;
            }
        }

        return (best, value, converged);
    }

    private static (double[] Place, double Value, bool Converged) Once(
        Func<double[], double> function,
        double[] start,
        double size,
        double tolerance
    )
    {
        var n = start.Length;
        var points = new double[n + 1][];
        var values = new double[n + 1];
        for (var i = 0; i <= n; i++)
        {
            points[i] = (double[])start.Clone();
            if (i > 0)
            {
                points[i][i - 1] += size;
            }

            values[i] = function(points[i]);
        }

        var limit = 400 * n;
        for (var step = 0; step < limit; step++)
        {
            Array.Sort(values, points);
            if (Spread(points) < tolerance)
            {
                return (points[0], values[0], true);
            }

            var centre = new double[n];
            for (var i = 0; i < n; i++)
            {
                for (var k = 0; k < n; k++)
                {
                    centre[k] += points[i][k] / n;
                }
            }

            double[] Along(double factor) =>
                [.. centre.Select((c, k) => c + (factor * (points[n][k] - c)))];

            var reflected = Along(-1);
            var value = function(reflected);
            if (value < values[0])
            {
                var expanded = Along(-2);
                var further = function(expanded);
                (points[n], values[n]) = further < value ? (expanded, further) : (reflected, value);
            }
            else if (value < values[n - 1])
            {
                (points[n], values[n]) = (reflected, value);
            }
            else
            {
                var contracted = Along(value < values[n] ? -0.5 : 0.5);
                var nearer = function(contracted);
                if (nearer < Math.Min(value, values[n]))
                {
                    (points[n], values[n]) = (contracted, nearer);
                }
                else
                {
                    for (var i = 1; i <= n; i++)
                    {
                        for (var k = 0; k < n; k++)
                        {
                            points[i][k] = points[0][k] + (0.5 * (points[i][k] - points[0][k]));
                        }

                        values[i] = function(points[i]);
                    }
                }
            }
        }

        Array.Sort(values, points);
        return (points[0], values[0], false);
    }

    private static double Spread(double[][] points)
    {
        double spread = 0;
        foreach (var point in points)
        {
            for (var k = 0; k < point.Length; k++)
            {
                spread = Math.Max(spread, Math.Abs(point[k] - points[0][k]));
            }
        }

        return spread;
    }
}
