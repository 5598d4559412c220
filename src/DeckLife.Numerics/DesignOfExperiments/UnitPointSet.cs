using System.Numerics;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.DesignOfExperiments;

/// <summary>Points in the unit cube from a named source, all of them reproducible from the seed.</summary>
/// <remarks>Checked by: SensitivityTests (lengths enforced), and distribution/quasi-random-rate of the reference checks.</remarks>
public static class UnitPointSet
{
    /// <summary>Makes the points.</summary>
    /// <param name="source">Where they come from.</param>
    /// <param name="count">Number of points, at least 1; for a lattice a power of 2 up to 2^18.</param>
    /// <param name="dimensions">Number of coordinates, at least 1; for a lattice 32 at most.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="purpose">What they are for; another text gives other points.</param>
    /// <returns>One array a coordinate, each strictly between 0 and 1; shape [dimensions][count].</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count or number of coordinates that the source cannot give.</exception>
    public static double[][] Make(
        PointSource source,
        int count,
        int dimensions,
        ulong seed,
        string purpose
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(dimensions, 1);
        var columns = new double[dimensions][];
        for (var d = 0; d < dimensions; d++)
        {
            columns[d] = new double[count];
        }

        switch (source)
        {
            case PointSource.Lattice:
                if (!BitOperations.IsPow2(count) || count > RandomlyShiftedLattice.LargestCount)
                {
                    throw new ArgumentOutOfRangeException(
                        nameof(count),
                        count,
                        "A lattice needs a power of 2, at most 2^18 = 262144 points: with another number it loses its evenness."
                    );
                }

                if (dimensions > RandomlyShiftedLattice.GeneratingVector.Length)
                {
                    throw new ArgumentOutOfRangeException(
                        nameof(dimensions),
                        dimensions,
                        "A lattice has 32 coordinates at most: use a Latin hypercube or random points."
                    );
                }

                var lattice = new RandomlyShiftedLattice(
                    dimensions,
                    new RandomStream(seed, purpose),
                    baker: true
                );
                for (var d = 0; d < dimensions; d++)
                {
                    lattice.FillCoordinate(d, 0, columns[d]);
                }

                break;
            case PointSource.LatinHypercube:
                var sample = LatinHypercube.Sample(
                    count,
                    dimensions,
                    new RandomStream(seed, purpose)
                );
                for (var i = 0; i < count; i++)
                {
                    for (var d = 0; d < dimensions; d++)
                    {
                        columns[d][i] = sample[(i * dimensions) + d];
                    }
                }

                break;
            default:
                for (var d = 0; d < dimensions; d++)
                {
                    new RandomStream(seed, purpose, (ulong)d).FillUniform(columns[d]);
                }

                break;
        }

        // A number of a Latin hypercube can round to 1, where a quantile does not exist; those of the other sources stay within.
        foreach (var column in columns)
        {
            for (var i = 0; i < count; i++)
            {
                column[i] = Math.Clamp(column[i], 1e-16, 1 - 1.2e-16);
            }
        }

        return columns;
    }
}
