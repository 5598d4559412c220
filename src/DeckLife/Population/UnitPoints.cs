namespace DeckLife.Population;

/// <summary>Where the uniform numbers of a projection come from: each named by seed, purpose and index, none by a thread.</summary>
internal static class UnitPoints
{
    /// <summary>Points of the unit cube for the area, low in discrepancy, moved as a whole by the draw's own shift.</summary>
    /// <param name="seed">The projection's seed.</param>
    /// <param name="draw">Index of the draw.</param>
    /// <param name="count">Number of points.</param>
    /// <param name="dimensions">Numbers a point.</param>
    /// <param name="destination">Row by row, inside (0, 1).</param>
    public static void ForArea(
        ulong seed,
        int draw,
        int count,
        int dimensions,
        Span<double> destination
    )
    {
        Span<double> step = stackalloc double[dimensions];
        Span<double> shift = stackalloc double[dimensions];
        var root = GeneralisedGoldenRatio(dimensions);
        var power = 1.0;
        for (var d = 0; d < dimensions; d++)
        {
            power /= root;
            step[d] = power;
            shift[d] = Uniform(seed, 0x6172_6561UL, (ulong)draw * 64 + (ulong)d);
        }

        for (var i = 0; i < count; i++)
        {
            for (var d = 0; d < dimensions; d++)
            {
                var x = shift[d] + (i + 1) * step[d];
                x -= Math.Floor(x);
                destination[i * dimensions + d] = Math.Clamp(x, 1e-12, 1 - 1e-12);
            }
        }
    }

    /// <summary>Numbers for what is not known in one draw.</summary>
    /// <param name="seed">The projection's seed.</param>
    /// <param name="draw">Index of the draw.</param>
    /// <param name="destination">Inside (0, 1).</param>
    public static void ForKnowledge(ulong seed, int draw, Span<double> destination)
    {
        for (var d = 0; d < destination.Length; d++)
        {
            destination[d] = Uniform(seed, 0x6b6e_6f77UL, (ulong)draw * 64 + (ulong)d);
        }
    }

    private static double GeneralisedGoldenRatio(int dimensions)
    {
        var x = 2.0;
        for (var i = 0; i < 64; i++)
        {
            x = Math.Pow(1 + x, 1.0 / (dimensions + 1));
        }

        return x;
    }

    private static double Uniform(ulong seed, ulong purpose, ulong index)
    {
        var z = Mix(Mix(Mix(seed) ^ purpose) + index * 0x9E37_79B9_7F4A_7C15UL);
        return ((z >> 11) + 0.5) * (1.0 / (1UL << 53));
    }

    private static ulong Mix(ulong z)
    {
        z += 0x9E37_79B9_7F4A_7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58_476D_1CE4_E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D0_49BB_1331_11EBUL;
        return z ^ (z >> 31);
    }
}
