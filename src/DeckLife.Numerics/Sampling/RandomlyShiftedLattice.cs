using System.Runtime.Intrinsics;

namespace DeckLife.Numerics.Sampling;

/// <summary>
/// Points of a rank-1 lattice in the unit cube, shifted at random: low discrepancy, and an unbiased mean over shifts.
/// The first 2^m points are a lattice for every m, so a sample can be doubled without losing what is done.
/// </summary>
/// <remarks>
/// Equation: x_ij = frac(φ(i) z_j + Δ_j), φ the base-2 radical inverse, z the generating vector, Δ the shift; with the baker's
/// transformation 1 - |2x - 1| on top where asked.
/// Source: Sloan &amp; Joe, Lattice Methods for Multiple Integration (1994); baker's transformation: Hickernell, MCQMC 2000 (2002).
/// The vectors are made by <see cref="LatticeConstruction"/>. Valid for: up to 2^18 points, 32 coordinates.
/// Checked by: LatticeTests.
/// </remarks>
public sealed class RandomlyShiftedLattice
{
    /// <summary>Largest number of points.</summary>
    public const int LargestCount = 1 << LogLargestCount;

    /// <summary>log2 of <see cref="LargestCount"/>.</summary>
    public const int LogLargestCount = 18;

    private readonly ulong[] _shifts;
    private readonly bool _baker;

    /// <summary>Makes the lattice with the next shift of a stream.</summary>
    /// <param name="dimensions">Number of coordinates, from 1 to 32; put the most influential first.</param>
    /// <param name="shift">Gives the shift, one number a coordinate.</param>
    /// <param name="baker">Whether to fold the cube by the baker's transformation, for smooth integrands.</param>
    public RandomlyShiftedLattice(int dimensions, RandomStream shift, bool baker = false)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(dimensions, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(dimensions, GeneratingVector.Length);
        ArgumentNullException.ThrowIfNull(shift);
        _shifts = new ulong[dimensions];
        for (var d = 0; d < dimensions; d++)
        {
            _shifts[d] = shift.NextBits();
        }

        _baker = baker;
    }

    /// <summary>The generating vector: the output of <c>LatticeConstruction.Construct(32, 18)</c>, held equal to it by a test.</summary>
    public static ReadOnlySpan<uint> GeneratingVector =>
        [
            1,
            73007,
            16935,
            20277,
            10937,
            65927,
            84827,
            27779,
            22285,
            52503,
            38471,
            50459,
            9653,
            75431,
            106421,
            96949,
            91771,
            20161,
            44921,
            19639,
            79227,
            42585,
            66139,
            32347,
            21135,
            98569,
            75729,
            75295,
            109947,
            119623,
            57833,
            86971,
        ];

    /// <summary>Number of coordinates.</summary>
    public int Dimensions => _shifts.Length;

    /// <summary>One coordinate of one point.</summary>
    /// <param name="point">Number of the point, from 0, below <see cref="LargestCount"/>.</param>
    /// <param name="dimension">The coordinate, from 0.</param>
    /// <returns>Strictly between 0 and 1.</returns>
    public double At(int point, int dimension)
    {
        CheckRange(point, 1);
        return Coordinate(ReverseBits((uint)point), dimension);
    }

    /// <summary>Points after each other: shape [count × dimensions].</summary>
    /// <param name="first">Number of the first point, from 0.</param>
    /// <param name="count">Number of points.</param>
    /// <param name="points">Receives the points.</param>
    public void Fill(int first, int count, Span<double> points)
    {
        CheckRange(first, count);
        ArgumentOutOfRangeException.ThrowIfLessThan(points.Length, count * Dimensions);
        for (int i = 0, at = 0; i < count; i++)
        {
            var inverse = ReverseBits((uint)(first + i));
            for (var d = 0; d < _shifts.Length; d++)
            {
                points[at++] = Coordinate(inverse, d);
            }
        }
    }

    /// <summary>One coordinate of consecutive points.</summary>
    /// <param name="dimension">The coordinate, from 0.</param>
    /// <param name="first">Number of the first point, from 0.</param>
    /// <param name="values">Receives as many points as it has room for.</param>
    public void FillCoordinate(int dimension, int first, Span<double> values)
    {
        CheckRange(first, values.Length);
        var i = 0;
        if (Vector256.IsHardwareAccelerated && first % 8 == 0)
        {
            i = FillEights(dimension, first, values);
        }

        for (; i < values.Length; i++)
        {
            values[i] = Coordinate(ReverseBits((uint)(first + i)), dimension);
        }
    }

    // Eight points that begin at a multiple of 8 differ in the top three bits of their inverses alone; the arithmetic is the same integers.
    private int FillEights(int dimension, int first, Span<double> values)
    {
        var z = (ulong)GeneratingVector[dimension];
        var steps = Vector512.Create(0UL, 4, 2, 6, 1, 5, 3, 7) * Vector512.Create(z << 29);
        var shift = Vector512.Create(_shifts[dimension]);
        var i = 0;
        for (; i + 8 <= values.Length; i += 8)
        {
            // (inverse z mod 2^32) 2^32 is inverse z 2^32 mod 2^64, and so for the lanes' own parts.
            var start = Vector512.Create(
                unchecked((ulong)ReverseBits((uint)(first + i)) * z << 32)
            );
            var bits = start + Vector512.ShiftLeft(steps, 32) + shift;
            var x =
                (
                    Vector512.ShiftRightLogical(bits, 12) | Vector512.Create(0x3FF0000000000000UL)
                ).AsDouble() - Vector512.Create(1 - (1.0 / (1UL << 53)));
            if (_baker)
            {
                x = Vector512<double>.One - Vector512.Abs(x + x - Vector512<double>.One);
            }

            x.CopyTo(values[i..]);
        }

        return i;
    }

    private static void CheckRange(int first, int count)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(first);
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(first, LargestCount - count);
    }

    private static uint ReverseBits(uint value)
    {
        value = ((value >> 1) & 0x55555555) | ((value & 0x55555555) << 1);
        value = ((value >> 2) & 0x33333333) | ((value & 0x33333333) << 2);
        value = ((value >> 4) & 0x0F0F0F0F) | ((value & 0x0F0F0F0F) << 4);
        value = ((value >> 8) & 0x00FF00FF) | ((value & 0x00FF00FF) << 8);
        return (value >> 16) | (value << 16);
    }

    // The fraction is an exact 32-bit integer; adding the 64-bit shift wraps around the unit interval.
    private double Coordinate(uint inverse, int dimension)
    {
        var bits = unchecked(
            ((ulong)(inverse * GeneratingVector[dimension]) << 32) + _shifts[dimension]
        );
        var x = RandomStream.ToUniform(bits);
        return _baker ? 1 - Math.Abs((2 * x) - 1) : x;
    }
}
