namespace DeckLife.Numerics.Diffusion;

/// <summary>
/// Step ends of a period: equal steps in ln(1 + (t - t0)/A) from each sudden change t0, a step on every time asked, kink
/// and jump. A is where the layers' clocks have run a tenth of the way to the first time asked; after a kink, where the content
/// changes evenly, three tenths of the time to it.
/// </summary>
internal static class LayeredTimeGrid
{
    /// <summary>Intervals between sudden changes, each with its step ends (its own start left out).</summary>
    public static List<(double Start, double End, List<double> Steps)> Build(
        LayeredPlan plan,
        LayeredPeriod period,
        double logarithmicStep,
        double maximumStep,
        int level
    )
    {
        var jumps = new SortedSet<double>();
        var kinks = new SortedSet<double>();
        foreach (var face in new[] { period.Surface, plan.Problem.Bottom })
        {
            jumps.UnionWith(face.Jumps.Where(t => t > period.Start && t < period.End));
            kinks.UnionWith(face.Kinks.Where(t => t > period.Start && t < period.End));
        }

        kinks.ExceptWith(jumps);
        var restarts = jumps
            .Union(kinks)
            .Order()
            .Prepend(period.Start)
            .Append(period.End)
            .ToArray();
        var intervals = new List<(double, double, List<double>)>();
        for (var i = 1; i < restarts.Length; i++)
        {
            var (start, end) = (restarts[i - 1], restarts[i]);
            var landings = plan.LandingTimes.Where(t => t > start && t < end).Append(end).ToArray();
            var scale = kinks.Contains(start)
                ? 0.3 * (landings[0] - start)
                : Scale(plan, period, start, landings[0]);
            var steps = new List<double>();
            var from = start;
            // From here on equal steps in the logarithm would be longer than the longest allowed.
            var turn = start + (maximumStep / logarithmicStep) - scale;
            foreach (
                var to in turn > start && turn < end
                    ? landings.Append(turn).Order().Distinct()
                    : landings
            )
            {
                if (from >= turn)
                {
                    var equal =
                        Math.Max(1, (int)Math.Ceiling(((to - from) / maximumStep) - 1e-9)) << level;
                    for (var k = 1; k < equal; k++)
                    {
                        steps.Add(from + ((to - from) * k / equal));
                    }

                    steps.Add(to);
                    from = to;
                    continue;
                }

                var (a, b) = (
                    Math.Log(1 + ((from - start) / scale)),
                    Math.Log(1 + ((to - start) / scale))
                );
                var count =
                    Math.Max(1, (int)Math.Ceiling(((b - a) / logarithmicStep) - 1e-9)) << level;
                for (var k = 1; k < count; k++)
                {
                    steps.Add(start + (scale * (Math.Exp(a + ((b - a) * k / count)) - 1)));
                }

                steps.Add(to);
                from = to;
            }

            intervals.Add((start, end, steps));
        }

        return intervals;
    }

    private static double Scale(LayeredPlan plan, LayeredPeriod period, double start, double first)
    {
        var scale = 0.1 * (first - start);
        foreach (var piece in period.Stack)
        {
            var clock = plan.Layers[piece.Layer].Clock;
            var begin = clock(start);
            var target = 0.1 * (clock(first) - begin);
            for (var i = 0; i < 40 && clock(start + scale) - begin > 1.1 * target; i++)
            {
                scale *= 0.5;
            }
        }

        return scale;
    }
}
