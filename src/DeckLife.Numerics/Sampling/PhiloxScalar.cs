namespace DeckLife.Numerics.Sampling;

/// <summary>Philox4x32-10, one block at a time: what <see cref="PhiloxLanes512"/> does in vectors, bit by bit.</summary>
/// <remarks>Source: Salmon, Moraes, Dror &amp; Shaw, SC11 (2011), sections 3.2 and 5. Checked by: RandomPairsTests.</remarks>
internal static unsafe class PhiloxScalar
{
    public const int Rounds = 10;
    public const ulong MultiplierA = 0xD2511F53;
    public const ulong MultiplierB = 0xCD9E8D57;

    private const uint WeylA = 0x9E3779B9; // golden ratio
    private const uint WeylB = 0xBB67AE85; // sqrt(3) - 1

    /// <summary>The keys of all rounds, two each.</summary>
    public static void Keys(uint key0, uint key1, Span<ulong> keys)
    {
        for (var k = 0; k < Rounds; k++)
        {
            keys[2 * k] = key0;
            keys[(2 * k) + 1] = key1;
            key0 = unchecked(key0 + WeylA);
            key1 = unchecked(key1 + WeylB);
        }
    }

    /// <summary>One block, in place.</summary>
    public static void Block(ReadOnlySpan<ulong> keys, Span<uint> counter)
    {
        for (var k = 0; k < Rounds; k++)
        {
            var a = MultiplierA * counter[0];
            var b = MultiplierB * counter[2];
            var (one, three) = (counter[1], counter[3]);
            counter[0] = (uint)(b >> 32) ^ one ^ (uint)keys[2 * k];
            counter[1] = (uint)b;
            counter[2] = (uint)(a >> 32) ^ three ^ (uint)keys[(2 * k) + 1];
            counter[3] = (uint)a;
        }
    }

    /// <summary>Fills two columns with uniform numbers.</summary>
    public static void Fill(
        ulong* keys,
        uint low,
        uint high,
        double* first,
        double* second,
        int count
    )
    {
        Span<uint> words = stackalloc uint[4];
        for (var i = 0; i < count; i++)
        {
            words[0] = (uint)i;
            words[1] = 0;
            words[2] = low;
            words[3] = high;
            Block(new(keys, Rounds * 2), words);
            first[i] = RandomStream.ToUniform(((ulong)words[0] << 32) | words[1]);
            second[i] = RandomStream.ToUniform(((ulong)words[2] << 32) | words[3]);
        }
    }
}
