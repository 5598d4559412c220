using DeckLife.Numerics.Vectors;

namespace DeckLife.Projection;

/// <summary>Contents at the bars of many sections over time, read between the solver's own times.</summary>
internal sealed class BarHistories
{
    private readonly double[] contents;
    private readonly int start;
    private readonly double[] highest;
    private readonly int count;
    private readonly int steps;
    private readonly double spanYr;

    /// <summary>Takes over a solver's result at <see cref="Times"/>.</summary>
    /// <param name="contents">Content for each time, one value a section.</param>
    /// <param name="firstRow">Number of the first time's row in it.</param>
    /// <param name="startingMaximum">Highest content that each bar has seen before; the running maximum starts there.</param>
    /// <param name="highest">Room for as many values as the steps' rows hold.</param>
    /// <param name="count">Number of sections.</param>
    /// <param name="steps">Number of steps.</param>
    /// <param name="spanYr">Time of the last step [yr].</param>
    public BarHistories(
        double[] contents,
        int firstRow,
        ReadOnlySpan<double> startingMaximum,
        double[] highest,
        int count,
        int steps,
        double spanYr
    )
    {
        this.contents = contents;
        this.highest = highest;
        start = firstRow * count;
        this.count = count;
        this.steps = steps;
        this.spanYr = spanYr;
        ArgumentOutOfRangeException.ThrowIfLessThan(steps, 3);
        var before = startingMaximum[..count];
        for (var k = 0; k <= steps; k++)
        {
            var own = highest.AsSpan(k * count, count);
            VectorLoops.Largest(before, contents.AsSpan(start + k * count, count), own);
            before = own;
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

    /// <summary>Highest content at each bar until the last step.</summary>
    /// <param name="contents">Receives one value a section.</param>
    public void HighestAtEnd(Span<double> contents) =>
        highest.AsSpan(steps * count, count).CopyTo(contents);

    /// <summary>Highest contents from placing until each step: a row a step, one value a section.</summary>
    public ReadOnlySpan<double> HighestAtSteps => highest.AsSpan(0, (steps + 1) * count);

    /// <summary>Reads what never falls, and is known at the steps, between them.</summary>
    /// <param name="valuesAtSteps">One value a step.</param>
    /// <param name="timeYr">Time since placing [yr], not negative.</param>
    /// <remarks>A cubic through four steps in √t, kept between the two steps around the time.</remarks>
    public double Between(ReadOnlySpan<double> valuesAtSteps, double timeYr)
    {
        var u = Place(timeYr);
        var k = (int)u;
        if (k >= steps || u == k)
        {
            return valuesAtSteps[k];
        }

        Span<double> weights = stackalloc double[4];
        var v = valuesAtSteps.Slice(Weights(u, k, weights), 4);
        return Math.Clamp(
            weights[0] * v[0] + weights[1] * v[1] + weights[2] * v[2] + weights[3] * v[3],
            valuesAtSteps[k],
            valuesAtSteps[k + 1]
        );
    }

    /// <summary>Highest content at each bar from placing until one time since placing.</summary>
    /// <param name="timeYr">Time since placing [yr], not negative.</param>
    /// <param name="contents">Receives one value a section.</param>
    /// <remarks>A cubic through four steps in √t, where the history is smooth; then the running maximum.</remarks>
    public void Highest(double timeYr, Span<double> contents)
    {
        var u = Place(timeYr);
        var k = (int)u;
        var reached = highest.AsSpan(k * count, count);
        if (k >= steps || u == k)
        {
            reached.CopyTo(contents);
            return;
        }

        Span<double> weights = stackalloc double[4];
        var first = Weights(u, k, weights);
        var at = start + first * count;
        var c0 = this.contents.AsSpan(at, count);
        var c1 = this.contents.AsSpan(at + count, count);
        var c2 = this.contents.AsSpan(at + 2 * count, count);
        var c3 = this.contents.AsSpan(at + 3 * count, count);
        VectorLoops.WeightedSum(c0, c1, c2, c3, weights, contents);
        VectorLoops.Largest(reached, contents, contents);
    }

    /// <summary>Highest content at one bar from placing until a time since placing.</summary>
    /// <param name="section">Index of the section.</param>
    /// <param name="timeYr">Time since placing [yr], not negative.</param>
    public double Highest(int section, double timeYr)
    {
        var u = Place(timeYr);
        var k = (int)u;
        var reached = highest[k * count + section];
        if (k >= steps || u == k)
        {
            return reached;
        }

        Span<double> weights = stackalloc double[4];
        var at = start + Weights(u, k, weights) * count + section;
        return Math.Max(
            reached,
            weights[0] * contents[at]
                + weights[1] * contents[at + count]
                + weights[2] * contents[at + 2 * count]
                + weights[3] * contents[at + 3 * count]
        );
    }

    /// <summary>Content at one bar at a time since placing.</summary>
    /// <param name="section">Index of the section.</param>
    /// <param name="timeYr">Time since placing [yr], not negative.</param>
    public double Content(int section, double timeYr)
    {
        var u = Place(timeYr);
        var k = (int)u;
        if (k >= steps || u == k)
        {
            return contents[start + k * count + section];
        }

        Span<double> weights = stackalloc double[4];
        var at = start + Weights(u, k, weights) * count + section;
        return weights[0] * contents[at]
            + weights[1] * contents[at + count]
            + weights[2] * contents[at + 2 * count]
            + weights[3] * contents[at + 3 * count];
    }

    private double Place(double timeYr) =>
        spanYr <= 0 ? 0 : Math.Min(steps, steps * Math.Sqrt(Math.Max(0, timeYr) / spanYr));

    private int Weights(double u, int k, Span<double> weights)
    {
        var first = Math.Clamp(k - 1, 0, steps - 3);
        var x = u - first;
        weights[0] = (x - 1) * (x - 2) * (x - 3) / -6;
        weights[1] = x * (x - 2) * (x - 3) / 2;
        weights[2] = x * (x - 1) * (x - 3) / -2;
        weights[3] = x * (x - 1) * (x - 2) / 6;
        return first;
    }
}
