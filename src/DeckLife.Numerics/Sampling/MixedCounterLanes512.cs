using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DeckLife.Numerics.Sampling;

/// <summary>Uniform numbers from mixed counters, a Vector512 at a time.</summary>
/// <remarks>MixedCounterLanes256.cs is this file with the width in its names replaced (a test holds them equal). Checked by: RandomPairsTests.</remarks>
internal static unsafe class MixedCounterLanes512
{
    /// <summary>Fills a column: number i is made of start + i γ.</summary>
    /// <param name="start">The counter of the first number.</param>
    /// <param name="result">Receives the numbers.</param>
    /// <param name="count">How many, a multiple of 8.</param>
    public static void Fill(ulong start, double* result, int count)
    {
        var counter =
            Vector512.Create(start)
            + (Vector512<ulong>.Indices * Vector512.Create(MixedCounterScalar.Gamma));
        var step = Vector512.Create(
            unchecked(MixedCounterScalar.Gamma * (ulong)Vector512<ulong>.Count)
        );
        for (var i = 0; i < count; i += Vector512<ulong>.Count)
        {
            Vector512.Store(Uniform(Mix(counter)), result + i);
            counter += step;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<ulong> Mix(Vector512<ulong> z)
    {
        z ^= Vector512.ShiftRightLogical(z, 30);
        z *= Vector512.Create(MixedCounterScalar.MultiplierA);
        z ^= Vector512.ShiftRightLogical(z, 27);
        z *= Vector512.Create(MixedCounterScalar.MultiplierB);
        return z ^ Vector512.ShiftRightLogical(z, 31);
    }

    // The upper 52 bits k as (k + 1/2) / 2^52.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Uniform(Vector512<ulong> bits) =>
        (Vector512.ShiftRightLogical(bits, 12) | Vector512.Create(0x3FF0000000000000UL)).AsDouble()
        - Vector512.Create(1 - (1.0 / (1UL << 53)));
}
