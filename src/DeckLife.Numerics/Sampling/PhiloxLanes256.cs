using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace DeckLife.Numerics.Sampling;

/// <summary>Philox4x32-10 on a Vector256 of counters.</summary>
/// <remarks>PhiloxLanes512.cs is this file with the width in its names replaced (a test holds them equal). Checked by: RandomPairsTests.</remarks>
internal static unsafe class PhiloxLanes256
{
    /// <summary>Fills two columns with uniform numbers: block i of the counter (i, 0, low, high) gives both numbers of row i.</summary>
    /// <param name="keys">The keys of the ten rounds, two each.</param>
    /// <param name="low">Third word of the counter.</param>
    /// <param name="high">Fourth word of the counter.</param>
    /// <param name="first">Receives the first numbers.</param>
    /// <param name="second">Receives the second numbers.</param>
    /// <param name="count">Number of rows, a multiple of 8.</param>
    public static void Fill(
        ulong* keys,
        uint low,
        uint high,
        double* first,
        double* second,
        int count
    )
    {
        var table = stackalloc ulong[PhiloxScalar.Rounds * 2 * Vector256<ulong>.Count];
        for (var k = 0; k < PhiloxScalar.Rounds * 2; k++)
        {
            Vector256.Store(Vector256.Create(keys[k]), table + (k * Vector256<ulong>.Count));
        }

        var counters = Vector256<ulong>.Indices;
        for (var i = 0; i < count; i += Vector256<ulong>.Count)
        {
            // The lower half of each lane holds a word; what the upper half holds is never read.
            var c0 = counters;
            var c1 = Vector256<ulong>.Zero;
            var c2 = Vector256.Create((ulong)low);
            var c3 = Vector256.Create((ulong)high);
            for (var k = 0; k < PhiloxScalar.Rounds * 2 * Vector256<ulong>.Count; )
            {
                var a = Multiply(c0, Vector256.Create(PhiloxScalar.MultiplierA));
                var b = Multiply(c2, Vector256.Create(PhiloxScalar.MultiplierB));
                c0 = Vector256.ShiftRightLogical(b, 32) ^ c1 ^ Vector256.Load(table + k);
                k += Vector256<ulong>.Count;
                c2 = Vector256.ShiftRightLogical(a, 32) ^ c3 ^ Vector256.Load(table + k);
                k += Vector256<ulong>.Count;
                c1 = b;
                c3 = a;
            }

            Vector256.Store(Uniform(c0, c1), first + i);
            Vector256.Store(Uniform(c2, c3), second + i);
            counters += Vector256.Create((ulong)Vector256<ulong>.Count);
        }
    }

    // 52 bits of the two words, as (k + 1/2) / 2^52.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Uniform(Vector256<ulong> upper, Vector256<ulong> lower)
    {
        var bits =
            Vector256.ShiftRightLogical(Vector256.ShiftLeft(upper, 32), 12)
            | Vector256.ShiftRightLogical(Vector256.ShiftLeft(lower, 32), 44)
            | Vector256.Create(0x3FF0000000000000UL);
        return bits.AsDouble() - Vector256.Create(1 - (1.0 / (1UL << 53)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ulong> Multiply(Vector256<ulong> a, Vector256<ulong> b) =>
        Avx2.Multiply(a.AsUInt32(), b.AsUInt32());
}
