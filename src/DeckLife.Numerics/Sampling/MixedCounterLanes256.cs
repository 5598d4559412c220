using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DeckLife.Numerics.Sampling;

/// <summary>Uniform numbers from mixed counters, a Vector256 at a time.</summary>
/// <remarks>MixedCounterLanes512.cs is this file with the width in its names replaced (a test holds them equal). Checked by: RandomPairsTests.</remarks>
internal static unsafe class MixedCounterLanes256
{
    /// <summary>Fills a column: number i is made of start + i γ.</summary>
    /// <param name="start">The counter of the first number.</param>
    /// <param name="result">Receives the numbers.</param>
    /// <param name="count">How many, a multiple of 8.</param>
    public static void Fill(ulong start, double* result, int count)
    {
        var counter =
            Vector256.Create(start)
            + (Vector256<ulong>.Indices * Vector256.Create(MixedCounterScalar.Gamma));
        var step = Vector256.Create(
            unchecked(MixedCounterScalar.Gamma * (ulong)Vector256<ulong>.Count)
        );
        for (var i = 0; i < count; i += Vector256<ulong>.Count)
        {
            Vector256.Store(Uniform(Mix(counter)), result + i);
            counter += step;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ulong> Mix(Vector256<ulong> z)
    {
        z ^= Vector256.ShiftRightLogical(z, 30);
        z *= Vector256.Create(MixedCounterScalar.MultiplierA);
        z ^= Vector256.ShiftRightLogical(z, 27);
        z *= Vector256.Create(MixedCounterScalar.MultiplierB);
        return z ^ Vector256.ShiftRightLogical(z, 31);
    }

    // The upper 52 bits k as (k + 1/2) / 2^52.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Uniform(Vector256<ulong> bits) =>
        (Vector256.ShiftRightLogical(bits, 12) | Vector256.Create(0x3FF0000000000000UL)).AsDouble()
        - Vector256.Create(1 - (1.0 / (1UL << 53)));
}
