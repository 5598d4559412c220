using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace DeckLife.Numerics.Sampling;

/// <summary>Philox4x32-10 on a Vector512 of counters.</summary>
/// <remarks>PhiloxLanes256.cs is this file with the width in its names replaced (a test holds them equal). Checked by: RandomPairsTests.</remarks>
internal static unsafe class PhiloxLanes512
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
        var table = stackalloc ulong[PhiloxScalar.Rounds * 2 * Vector512<ulong>.Count];
        for (var k = 0; k < PhiloxScalar.Rounds * 2; k++)
        {
            Vector512.Store(Vector512.Create(keys[k]), table + (k * Vector512<ulong>.Count));
        }

        var counters = Vector512<ulong>.Indices;
        for (var i = 0; i < count; i += Vector512<ulong>.Count)
        {
            // The lower half of each lane holds a word; what the upper half holds is never read.
            var c0 = counters;
            var c1 = Vector512<ulong>.Zero;
            var c2 = Vector512.Create((ulong)low);
            var c3 = Vector512.Create((ulong)high);
            for (var k = 0; k < PhiloxScalar.Rounds * 2 * Vector512<ulong>.Count; )
            {
                var a = Multiply(c0, Vector512.Create(PhiloxScalar.MultiplierA));
                var b = Multiply(c2, Vector512.Create(PhiloxScalar.MultiplierB));
                c0 = Vector512.ShiftRightLogical(b, 32) ^ c1 ^ Vector512.Load(table + k);
                k += Vector512<ulong>.Count;
                c2 = Vector512.ShiftRightLogical(a, 32) ^ c3 ^ Vector512.Load(table + k);
                k += Vector512<ulong>.Count;
                c1 = b;
                c3 = a;
            }

            Vector512.Store(Uniform(c0, c1), first + i);
            Vector512.Store(Uniform(c2, c3), second + i);
            counters += Vector512.Create((ulong)Vector512<ulong>.Count);
        }
    }

    // 52 bits of the two words, as (k + 1/2) / 2^52.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Uniform(Vector512<ulong> upper, Vector512<ulong> lower)
    {
        var bits =
            Vector512.ShiftRightLogical(Vector512.ShiftLeft(upper, 32), 12)
            | Vector512.ShiftRightLogical(Vector512.ShiftLeft(lower, 32), 44)
            | Vector512.Create(0x3FF0000000000000UL);
        return bits.AsDouble() - Vector512.Create(1 - (1.0 / (1UL << 53)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<ulong> Multiply(Vector512<ulong> a, Vector512<ulong> b) =>
        Avx512F.Multiply(a.AsUInt32(), b.AsUInt32());
}
