using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Sampling;

/// <summary>Random numbers in bulk, two columns at a time, by the widest vectors of the machine; a pair of columns is named by (seed, purpose, index).</summary>
/// <remarks>
/// Equation: Philox4x32 with 10 rounds; key from (seed, purpose), counter (row, 0, index). Row i depends on i alone, never on how many rows are asked.
/// Source: Salmon, Moraes, Dror &amp; Shaw, SC11 (2011); normal numbers in polar form (Box &amp; Muller, Ann. Math. Statist. 29 (1958) 610).
/// Accuracy: uniforms have 52 random bits, lie strictly between 0 and 1 and are the same bits in every width; normal numbers are those of their
/// uniforms to 1e-10, up to |z| = 8.5. Checked by: RandomPairsTests.
/// </remarks>
public static unsafe class RandomPairs
{
    private const int Room = 512;

    /// <summary>Fills two columns with independent uniform numbers, strictly between 0 and 1.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="purpose">What the numbers are for, as <see cref="RandomStream.PurposeKey"/> gives it.</param>
    /// <param name="index">Number of the pair of columns within the purpose.</param>
    /// <param name="first">Receives one column, at most 2^31 rows.</param>
    /// <param name="second">Receives the other, of the same length.</param>
    public static void FillUniform(
        ulong seed,
        ulong purpose,
        ulong index,
        Span<double> first,
        Span<double> second
    ) => Fill(seed, purpose, index, first, second, isNormal: false);

    /// <summary>Fills two columns with independent standard normal numbers.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="purpose">What the numbers are for, as <see cref="RandomStream.PurposeKey"/> gives it.</param>
    /// <param name="index">Number of the pair of columns within the purpose.</param>
    /// <param name="first">Receives one column, at most 2^31 rows.</param>
    /// <param name="second">Receives the other, of the same length.</param>
    public static void FillNormal(
        ulong seed,
        ulong purpose,
        ulong index,
        Span<double> first,
        Span<double> second
    ) => Fill(seed, purpose, index, first, second, isNormal: true);

    internal static void Fill(
        ulong seed,
        ulong purpose,
        ulong index,
        Span<double> first,
        Span<double> second,
        bool isNormal,
        LaneWidth? width = null
    )
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(second.Length, first.Length);
        var key = RandomStream.Block(seed, purpose, 0, ulong.MaxValue, out _, out _, out _);
        Span<ulong> keys = stackalloc ulong[PhiloxScalar.Rounds * 2];
        PhiloxScalar.Keys((uint)key, (uint)(key >> 32), keys);
        var lanes = width ?? VectorWidth.InUse;
        var whole = first.Length & ~7;
        fixed (ulong* k = keys)
        fixed (
            double* a = first,
                b = second
        )
        {
            Fill(k, index, a, b, whole, isNormal, lanes);
        }

        if (whole < first.Length)
        {
            Rest(keys, index, first, second, whole, isNormal, lanes);
        }
    }

    // The last rows stand in whole vectors of their own, so that each is computed alike wherever the column ends.
    private static void Rest(
        ReadOnlySpan<ulong> keys,
        ulong index,
        Span<double> first,
        Span<double> second,
        int whole,
        bool isNormal,
        LaneWidth lanes
    )
    {
        var a = stackalloc double[8];
        var b = stackalloc double[8];
        Span<uint> words = stackalloc uint[4];
        for (var i = 0; i < 8; i++)
        {
            words[0] = (uint)(whole + i);
            words[1] = 0;
            words[2] = (uint)index;
            words[3] = (uint)(index >> 32);
            PhiloxScalar.Block(keys, words);
            a[i] = RandomStream.ToUniform(((ulong)words[0] << 32) | words[1]);
            b[i] = RandomStream.ToUniform(((ulong)words[2] << 32) | words[3]);
        }

        if (isNormal)
        {
            Normals(a, b, 8, lanes);
        }

        for (var i = whole; i < first.Length; i++)
        {
            first[i] = a[i - whole];
            second[i] = b[i - whole];
        }
    }

    private static void Fill(
        ulong* keys,
        ulong index,
        double* first,
        double* second,
        int count,
        bool isNormal,
        LaneWidth lanes
    )
    {
        var low = (uint)index;
        var high = (uint)(index >> 32);
        switch (lanes)
        {
            case LaneWidth.Eight:
                PhiloxLanes512.Fill(keys, low, high, first, second, count);
                break;
            case LaneWidth.Four:
                PhiloxLanes256.Fill(keys, low, high, first, second, count);
                break;
            default:
                PhiloxScalar.Fill(keys, low, high, first, second, count);
                break;
        }

        // In pieces that the nearest cache holds.
        for (var i = 0; isNormal && i < count; i += Room)
        {
            Normals(first + i, second + i, Math.Min(Room, count - i), lanes);
        }
    }

    private static void Normals(double* first, double* second, int count, LaneWidth lanes)
    {
        switch (lanes)
        {
            case LaneWidth.Eight:
                LimitStateLanes512.NormalPairs(first, second, count);
                break;
            case LaneWidth.Four:
                LimitStateLanes256.NormalPairs(first, second, count);
                break;
            default:
                LimitStateScalar.NormalPairs(first, second, count);
                break;
        }
    }
}
