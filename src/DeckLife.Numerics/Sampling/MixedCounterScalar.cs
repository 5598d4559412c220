namespace DeckLife.Numerics.Sampling;

/// <summary>Uniform numbers from mixed counters, one at a time: what <see cref="MixedCounterLanes512"/> does in vectors, bit by bit.</summary>
/// <remarks>Source: Steele, Lea &amp; Flood, Fast splittable pseudorandom number generators, OOPSLA (2014), figure 16 and section 5. Checked by: RandomPairsTests.</remarks>
internal static unsafe class MixedCounterScalar
{
    public const ulong Gamma = 0x9E3779B97F4A7C15; // golden ratio, odd
    public const ulong MultiplierA = 0xBF58476D1CE4E5B9;
    public const ulong MultiplierB = 0x94D049BB133111EB;

    /// <summary>The 64 bits of a counter.</summary>
    public static ulong Mix(ulong z)
    {
        z = unchecked((z ^ (z >> 30)) * MultiplierA);
        z = unchecked((z ^ (z >> 27)) * MultiplierB);
        return z ^ (z >> 31);
    }

    /// <summary>Fills a column: number i is made of start + i γ.</summary>
    public static void Fill(ulong start, double* result, int count)
    {
        for (var i = 0; i < count; i++)
        {
            result[i] = RandomStream.ToUniform(Mix(unchecked(start + ((ulong)(uint)i * Gamma))));
        }
    }
}
