using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.MarkovChains;

/// <summary>Updates one coordinate of a Markov chain by slice sampling; nothing to tune.</summary>
/// <remarks>
/// Source: Neal, Slice sampling (Annals of Statistics 31, 2003), stepping out (figure 3) and shrinkage (figure 5).
/// </remarks>
public static class UnivariateSlice
{
    // Far more widths than any start is off; where they are used up the interval is still a valid one (figure 3 with m = 60).
    private const int MaximumSteps = 60;

    /// <summary>Draws the next value of the coordinate.</summary>
    /// <param name="stream">The chain's random numbers.</param>
    /// <param name="logDensity">Log density up to a constant; negative infinity outside the support.</param>
    /// <param name="current">The value now, inside the support.</param>
    /// <param name="width">A guess of the width of the density, positive; it costs time, never correctness.</param>
    /// <param name="lower">Lower end of the support; may be negative infinity.</param>
    /// <param name="upper">Upper end of the support; may be positive infinity.</param>
    public static double Next(
        RandomStream stream,
        Func<double, double> logDensity,
        double current,
        double width,
        double lower = double.NegativeInfinity,
        double upper = double.PositiveInfinity
    )
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(logDensity);
        var level = logDensity(current) + Math.Log(stream.NextUniform());
        var left = current - (width * stream.NextUniform());
        var right = left + width;
        var stepsLeft = (int)(MaximumSteps * stream.NextUniform());
        var stepsRight = MaximumSteps - 1 - stepsLeft;
        while (stepsLeft-- > 0 && left > lower && logDensity(left) > level)
        {
            left -= width;
        }

        while (stepsRight-- > 0 && right < upper && logDensity(right) > level)
        {
            right += width;
        }

        left = Math.Max(left, lower);
        right = Math.Min(right, upper);
        while (true)
        {
            var candidate = left + (stream.NextUniform() * (right - left));
            if (logDensity(candidate) > level)
            {
                return candidate;
            }

            if (candidate < current)
            {
                left = candidate;
            }
            else
            {
                right = candidate;
            }

            // The interval has shrunk to the point itself, which lies on its own slice.
            if (!(right - left > 1e-14 * (Math.Abs(current) + 1e-300)))
            {
                return current;
            }
        }
    }
}
