namespace DeckLife.Numerics.Distributions;

/// <summary>Finds the argument at which a tail has a given probability, in the logarithm of the tail.</summary>
internal static class TailInversion
{
    /// <summary>Newton on ln tail(v) = ln p, kept inside a bracket that is widened first and halved where Newton leaves it.</summary>
    /// <param name="tail">The tail's probability at v; rises with v for a lower tail, falls for an upper one.</param>
    /// <param name="density">The density in v.</param>
    /// <param name="p">The probability sought, above 0.</param>
    /// <param name="lower">Whether the tail is the lower one.</param>
    /// <param name="start">Where to start.</param>
    /// <returns>v, to rounding.</returns>
    public static double Solve(
        Func<double, double> tail,
        Func<double, double> density,
        double p,
        bool lower,
        double start
    )
    {
        var target = Math.Log(p);
        var sign = lower ? 1.0 : -1.0;
        double Excess(double v) => sign * (Math.Log(Math.Max(tail(v), double.Epsilon)) - target);

        var low = start;
        var high = start;
        for (var step = 0.5; Excess(low) > 0 && step < 1e6; step *= 2)
        {
            high = low;
            low -= step;
        }

        for (var step = 0.5; Excess(high) < 0 && step < 1e6; step *= 2)
        {
            low = high;
            high += step;
        }

        var at = Math.Clamp(start, low, high);
        for (var i = 0; i < 200; i++)
        {
            var probability = tail(at);
            var excess = sign * (Math.Log(Math.Max(probability, double.Epsilon)) - target);
            if (excess == 0)
            {
                return at;
            }

            if (excess > 0)
            {
                high = at;
            }
            else
            {
                low = at;
            }

            var slope = density(at) / Math.Max(probability, double.Epsilon);
            var next = slope > 0 ? at - (excess / slope) : double.NaN;
            if (!(next > low && next < high))
            {
                next = 0.5 * (low + high);
            }

            var step = Math.Abs(next - at);
            at = next;
            if (step <= 4e-16 * Math.Max(1, Math.Abs(at)))
            {
                break;
            }
        }

        return at;
    }
}
