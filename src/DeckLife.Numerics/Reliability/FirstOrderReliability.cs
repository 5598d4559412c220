using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.Reliability;

/// <summary>The first-order reliability method: design points by the Hasofer-Lind-Rackwitz-Fiessler iteration with a line search.</summary>
/// <remarks>
/// Equation: u' = ((∇g·u - g)/|∇g|²) ∇g; step lengths by the merit ½|u|² + c|g|, c = 2|u|/|∇g|, far from the surface ½|u'|²/|g| if that is more.
/// Source: Hasofer &amp; Lind 1974; Rackwitz &amp; Fiessler 1978; merit of Zhang &amp; Der Kiureghian 1995 (all from memory).
/// Checked by: ReliabilityTests, and reliability/* of the reference checks.
/// </remarks>
public static class FirstOrderReliability
{
    private const int MostIterations = 200;
    private const double LongestStep = 4;

    /// <summary>Finds the design point that the iteration reaches from one start.</summary>
    /// <param name="limitState">The limit state.</param>
    /// <param name="start">Independent scores to start from; empty for the origin.</param>
    public static DesignPoint Find(LimitState limitState, ReadOnlySpan<double> start = default)
    {
        ArgumentNullException.ThrowIfNull(limitState);
        var n = limitState.Dimensions;
        var u = new double[n];
        if (!start.IsEmpty)
        {
            start.CopyTo(u);
        }

        var gradient = new double[n];
        var step = new double[n];
        var trial = new double[n];
        var g = limitState.ValueAndGradient(u, gradient);
        for (var iteration = 0; ; iteration++)
        {
            var slope = Norm(gradient);
            if (!double.IsFinite(g) || !double.IsFinite(slope))
            {
                return Result(limitState, u, gradient, DesignPointStatus.NotFinite, iteration);
            }

            if (slope == 0)
            {
                return Result(limitState, u, gradient, DesignPointStatus.NoGradient, iteration);
            }

            var misaligned = Misalignment(u, gradient, slope);
            var distance = Math.Abs(g) / slope;
            if (distance < 1e-11 * Math.Max(1, Norm(u)) && misaligned < 1e-8 * Math.Max(1, Norm(u)))
            {
                return Result(limitState, u, gradient, DesignPointStatus.Converged, iteration);
            }

            var near = distance < 1e-8 && misaligned < 1e-5 * Math.Max(1, Norm(u));
            if (iteration == MostIterations)
            {
                return Result(
                    limitState,
                    u,
                    gradient,
                    near ? DesignPointStatus.Converged : DesignPointStatus.IterationLimit,
                    iteration
                );
            }

            var factor = (Dot(gradient, u) - g) / (slope * slope);
            for (var d = 0; d < n; d++)
            {
                step[d] = (factor * gradient[d]) - u[d];
            }

            var target = Math.Abs(factor) * slope;
            var length = Norm(step);
            var scale = length > LongestStep ? LongestStep / length : 1;
            var c = Math.Max(
                2 * Norm(u) / slope,
                distance > 1e-3 * Math.Max(1, Norm(u)) ? 0.5 * target * target / Math.Abs(g) : 0
            );
            c = Math.Max(c, 1e-3 / slope);
            var merit = (0.5 * Dot(u, u)) + (c * Math.Abs(g));
            var descent = Dot(u, step) - (c * Math.Abs(g));
            var moved = false;
            for (var halving = 0; halving < 30; halving++, scale *= 0.5)
            {
                for (var d = 0; d < n; d++)
                {
                    trial[d] = u[d] + (scale * step[d]);
                }

                var value = limitState.Value(trial);
                if (
                    double.IsFinite(value)
                    && (0.5 * Dot(trial, trial)) + (c * Math.Abs(value))
                        <= merit + (1e-4 * scale * Math.Min(descent, 0)) + (1e-15 * merit)
                )
                {
                    moved = true;
                    break;
                }
            }

            if (!moved)
            {
                return Result(
                    limitState,
                    u,
                    gradient,
                    near ? DesignPointStatus.Converged : DesignPointStatus.NoProgress,
                    iteration
                );
            }

            (u, trial) = (trial, u);
            g = limitState.ValueAndGradient(u, gradient);
        }
    }

    /// <summary>Finds the design points that starts all around the origin reach, the nearest to the origin first.</summary>
    /// <param name="limitState">The limit state.</param>
    /// <param name="seed">Seed of the random directions.</param>
    /// <param name="randomStarts">Number of random directions beside the origin and both ways along each axis.</param>
    /// <returns>
    /// Converged points, each once, true local minima of the distance only, without those for which Φ(-|β|) is below 1e-4 of
    /// the nearest one's and those at the far side of an island (β of the other sign); no points where no search converged.
    /// </returns>
    public static DesignPointSet FindAll(LimitState limitState, ulong seed, int randomStarts = 24)
    {
        ArgumentNullException.ThrowIfNull(limitState);
        ArgumentOutOfRangeException.ThrowIfNegative(randomStarts);
        var n = limitState.Dimensions;
        var first = Find(limitState);
        var found = new List<DesignPoint>();
        Keep(found, first, limitState);
        var stream = new RandomStream(seed, "starts for design points");
        var start = new double[n];
        var searches = 1;
        for (var s = 0; s < (2 * n) + randomStarts; s++, searches++)
        {
            if (s < 2 * n)
            {
                Array.Clear(start);
                start[s / 2] = s % 2 == 0 ? 2 : -2;
            }
            else
            {
                stream.FillNormal(start);
                var radius = 1.5 + (2.5 * stream.NextUniform());
                var norm = Norm(start);
                for (var d = 0; d < n; d++)
                {
                    start[d] *= radius / norm;
                }
            }

            Keep(found, Find(limitState, start), limitState);
        }

        // From the origin a design point is where the origin's own state ends. Where it begins again, behind an island of the other, β has the other sign.
        var fails = limitState.Value(new double[n]) <= 0;
        found.RemoveAll(p => fails ? p.Beta > 1e-6 : p.Beta < -1e-6);
        found.Sort(
            (a, b) =>
            {
                var order = Math.Abs(a.Beta).CompareTo(Math.Abs(b.Beta));
                for (var d = 0; order == 0 && d < n; d++)
                {
                    order = a.Scores[d].CompareTo(b.Scores[d]);
                }

                return order;
            }
        );
        var cut =
            found.Count == 0 ? 0 : 1e-4 * NormalQuantile.Probability(-Math.Abs(found[0].Beta));
        return new()
        {
            Points = [.. found.Where(p => NormalQuantile.Probability(-Math.Abs(p.Beta)) >= cut)],
            FromOrigin = first,
            Searches = searches,
        };
    }

    internal static double Norm(ReadOnlySpan<double> v) => Math.Sqrt(Dot(v, v));

    internal static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var sum = 0.0;
        for (var d = 0; d < a.Length; d++)
        {
            sum += a[d] * b[d];
        }

        return sum;
    }

    private static void Keep(List<DesignPoint> found, DesignPoint point, LimitState limitState)
    {
        if (point.Status != DesignPointStatus.Converged)
        {
            return;
        }

        var u = point.Scores.AsSpan();
        foreach (var other in found)
        {
            var sum = 0.0;
            for (var d = 0; d < u.Length; d++)
            {
                var difference = u[d] - other.Scores[d];
                sum += difference * difference;
            }

            if (Math.Sqrt(sum) < 0.02 * Math.Max(1, Math.Abs(point.Beta)))
            {
                return;
            }
        }

        if (SecondOrderReliability.IsLocalMinimum(limitState, point))
        {
            found.Add(point);
        }
    }

    // The part of u that is not along the gradient.
    private static double Misalignment(double[] u, double[] gradient, double slope)
    {
        var along = Dot(u, gradient) / slope;
        var sum = 0.0;
        for (var d = 0; d < u.Length; d++)
        {
            var part = u[d] - (along * gradient[d] / slope);
            sum += part * part;
        }

        return Math.Sqrt(sum);
    }

    private static DesignPoint Result(
        LimitState limitState,
        double[] u,
        double[] gradient,
        DesignPointStatus status,
        int iterations
    )
    {
        var slope = Norm(gradient);
        var usable = slope > 0 && double.IsFinite(slope);
        var direction = usable ? [.. gradient.Select(v => -v / slope)] : new double[u.Length];
        var values = new double[u.Length];
        limitState.Variables.ToValues(u, values);
        return new()
        {
            Status = status,
            Beta = usable ? Dot(direction, u) : 0,
            Scores = [.. u],
            Values = [.. values],
            Direction = [.. direction],
            Slope = usable ? slope : 0,
            Iterations = iterations,
        };
    }
}
