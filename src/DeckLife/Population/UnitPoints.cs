using DeckLife.Numerics.Sampling;

namespace DeckLife.Population;

/// <summary>Where the uniform numbers of a projection come from: each named by seed, purpose and index, none by a thread.</summary>
internal static class UnitPoints
{
    /// <summary>Points of the unit cube for the area, low in discrepancy, moved as a whole by the draw's own shift.</summary>
    /// <param name="seed">The projection's seed.</param>
    /// <param name="draw">Index of the draw; negative for the central one.</param>
    /// <param name="count">Number of points; powers of 2 are best.</param>
    /// <param name="dimensions">Numbers a point.</param>
    /// <returns>Row by row, inside (0, 1).</returns>
    public static double[] ForArea(ulong seed, int draw, int count, int dimensions)
    {
        var lattice = new RandomlyShiftedLattice(
            dimensions,
            new RandomStream(seed, "points of the area", unchecked((ulong)draw)),
            baker: true
        );
        var points = new double[count * dimensions];
        lattice.Fill(0, count, points);
        return points;
    }

    /// <summary>Numbers for what is not known in one draw.</summary>
    /// <param name="seed">The projection's seed.</param>
    /// <param name="draw">Index of the draw.</param>
    /// <param name="destination">Inside (0, 1).</param>
    public static void ForKnowledge(ulong seed, int draw, Span<double> destination) =>
        new RandomStream(seed, "what is not known", (ulong)draw).FillUniform(destination);
}
