namespace DeckLife.Projection;

/// <summary>Contents at the bars of many sections over time, read between the solver's own times.</summary>
internal sealed class BarHistories
{
    private readonly double[] contents;
    private readonly double[] highest;
    private readonly int count;
    private readonly int steps;
    private readonly double spanYr;

    /// <summary>Takes over a solver's result at <see cref="Times"/>.</summary>
    /// <param name="contents">Content for each time, one value a section.</param>
    /// <param name="startingMaximum">Highest content that each bar has seen before; the running maximum starts there.</param>
    /// <param name="count">Number of sections.</param>
    /// <param name="steps">Number of steps.</param>
    /// <param name="spanYr">Time of the last step [yr].</param>
    public BarHistories(
        double[] contents,
        ReadOnlySpan<double> startingMaximum,
        int count,
        int steps,
        double spanYr
    )
    {
        this.contents = contents;
        this.count = count;
        this.steps = steps;
        this.spanYr = spanYr;
        highest = new double[(steps + 1) * count];
        for (var i = 0; i < count; i++)
        {
            var maximum = Math.Max(startingMaximum[i], contents[i]);
            highest[i] = maximum;
            for (var k = 1; k <= steps; k++)
            {
                maximum = Math.Max(maximum, contents[k * count + i]);
                highest[k * count + i] = maximum;
            }
        }
    }

    /// <summary>Times of the steps [yr]: close together at first, where contents move fastest.</summary>
    public static double[] Times(double spanYr, int steps)
    {
        var times = new double[steps + 1];
        for (var k = 0; k <= steps; k++)
        {
            var share = (double)k / steps;
            times[k] = spanYr * share * share;
        }

        return times;
    }

    /// <summary>Highest content at a bar from placing until a time since placing.</summary>
    /// <param name="section">Index of the section.</param>
    /// <param name="timeYr">Time since placing [yr], not negative.</param>
    /// <remarks>A cubic through four steps in √t, where the history is smooth; then the running maximum.</remarks>
    public double Highest(int section, double timeYr)
    {
        if (spanYr <= 0)
        {
            return highest[section];
        }

        var u = Math.Min(steps, steps * Math.Sqrt(Math.Max(0, timeYr) / spanYr));
        var k = (int)u;
        var reached = highest[k * count + section];
        if (k >= steps || u == k)
        {
            return reached;
        }

        var first = Math.Clamp(k - 1, 0, Math.Max(0, steps - 3));
        var x = u - first;
        var at = first * count + section;
        double c0 = contents[at],
            c1 = contents[at + count],
            c2 = contents[at + 2 * count],
            c3 = contents[at + 3 * count];
        var value =
            c0 * ((x - 1) * (x - 2) * (x - 3) / -6)
            + c1 * (x * (x - 2) * (x - 3) / 2)
            + c2 * (x * (x - 1) * (x - 3) / -2)
            + c3 * (x * (x - 1) * (x - 2) / 6);
        return Math.Max(reached, value);
    }
}
