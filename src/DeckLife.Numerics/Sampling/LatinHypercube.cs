namespace DeckLife.Numerics.Sampling;

/// <summary>Latin hypercube samples: each coordinate has one point in each of n equal strata.</summary>
/// <remarks>
/// Source: McKay, Beckman &amp; Conover, Technometrics 21 (1979) 239-245.
/// Checked by: LatticeTests.
/// </remarks>
public static class LatinHypercube
{
    /// <summary>Draws a sample.</summary>
    /// <param name="count">Number of points n, at least 1.</param>
    /// <param name="dimensions">Number of coordinates, at least 1.</param>
    /// <param name="stream">Source of the permutations and of the places within the strata.</param>
    /// <returns>The points, shape [count × dimensions], point after point, each strictly between 0 and 1.</returns>
    public static double[] Sample(int count, int dimensions, RandomStream stream)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(dimensions, 1);
        ArgumentNullException.ThrowIfNull(stream);
        var points = new double[checked(count * dimensions)];
        var order = new int[count];
        for (var d = 0; d < dimensions; d++)
        {
            for (var i = 0; i < count; i++)
            {
                order[i] = i;
            }

            for (var i = count - 1; i > 0; i--)
            {
                var other = stream.NextInteger(i + 1);
                (order[i], order[other]) = (order[other], order[i]);
            }

            for (var i = 0; i < count; i++)
            {
                var value = (order[i] + stream.NextUniform()) / count;
                points[(i * dimensions) + d] = Math.Min(value, 1 - (1.0 / (1UL << 53)));
            }
        }

        return points;
    }
}
