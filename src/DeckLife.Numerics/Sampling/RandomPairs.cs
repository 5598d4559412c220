using System.Numerics;
using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Sampling;

/// <summary>Random numbers in bulk, two columns at a time, by the widest vectors of the machine; a pair of columns is named by (seed, purpose, index).</summary>
/// <remarks>
/// Equation: number i of a column is mix(start + i γ), the starts of both columns being two words of the Philox4x64 block of (seed, purpose, index).
/// Row i depends on i alone, never on how many rows are asked.
/// Source: Steele, Lea &amp; Flood, OOPSLA (2014), for counter and mix (they report BigCrush passed); Salmon, Moraes, Dror &amp; Shaw, SC11 (2011), for the
/// starts; normal numbers in polar form (Box &amp; Muller, Ann. Math. Statist. 29 (1958) 610).
/// Accuracy: uniforms have 52 random bits, lie strictly between 0 and 1 and are the same bits in every width; normal numbers are those of their
/// uniforms to 1e-10, up to |z| = 8.5. Two of n columns of length L share numbers with probability n² L / 2^64: 1e-3 for 5e9 numbers in columns of 2048.
/// Checked by: RandomPairsTests, against the mix's known numbers.
/// </remarks>
public static unsafe class RandomPairs
{
    private const int Room = 512;
    private const int MostRedraws = 1000;

    /// <summary>Fills two columns with independent uniform numbers, strictly between 0 and 1.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="purpose">What the numbers are for, as <see cref="RandomStream.PurposeKey"/> gives it.</param>
    /// <param name="index">Number of the pair of columns within the purpose.</param>
    /// <param name="first">Receives one column.</param>
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
    /// <param name="first">Receives one column.</param>
    /// <param name="second">Receives the other, of the same length.</param>
    public static void FillNormal(
        ulong seed,
        ulong purpose,
        ulong index,
        Span<double> first,
        Span<double> second
    ) => Fill(seed, purpose, index, first, second, isNormal: true);

    /// <summary>Draws those normal numbers of a column anew that lie outside bounds, until they are within.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="purpose">What the numbers are for; it may be that of the columns, whose numbers are others.</param>
    /// <param name="index">Number of the column within the purpose.</param>
    /// <param name="column">Normal numbers; those outside are replaced.</param>
    /// <param name="lower">Lower bound.</param>
    /// <param name="upper">Upper bound; much of the distribution must lie within.</param>
    public static void Redraw(
        ulong seed,
        ulong purpose,
        ulong index,
        Span<double> column,
        double lower,
        double upper
    )
    {
        for (var i = 0; i < column.Length; i++)
        {
            // Whole vectors within the bounds are stepped over.
            while (
                i <= column.Length - Vector<double>.Count
                && Vector.GreaterThanOrEqualAll(
                    new Vector<double>(column[i..]),
                    new Vector<double>(lower)
                )
                && Vector.LessThanOrEqualAll(
                    new Vector<double>(column[i..]),
                    new Vector<double>(upper)
                )
            )
            {
                i += Vector<double>.Count;
            }

            if (i >= column.Length || (column[i] >= lower && column[i] <= upper))
            {
                continue;
            }

            var stream = new RandomStream(
                RandomStream.Block(seed, purpose, 1, index, out _, out _, out _),
                purpose,
                (ulong)i
            );
            for (
                var again = 0;
                again < MostRedraws && !(column[i] >= lower && column[i] <= upper);
                again++
            )
            {
                column[i] = stream.NextNormal();
            }

            column[i] = Math.Clamp(column[i], lower, upper);
        }
    }

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
        var one = RandomStream.Block(seed, purpose, 0, index, out var two, out _, out _);
        var lanes = width ?? VectorWidth.InUse;
        var whole = first.Length & ~7;
        // In pieces that the nearest cache holds.
        fixed (
            double* a = first,
                b = second
        )
        {
            for (var i = 0; i < whole; i += Room)
            {
                Piece(one, two, i, a + i, b + i, Math.Min(Room, whole - i), isNormal, lanes);
            }
        }

        if (whole == first.Length)
        {
            return;
        }

        // The last rows stand in a whole vector of their own, so that each is computed alike wherever the column ends.
        var room = stackalloc double[16];
        Piece(one, two, whole, room, room + 8, 8, isNormal, lanes);
        for (var i = whole; i < first.Length; i++)
        {
            first[i] = room[i - whole];
            second[i] = room[i - whole + 8];
        }
    }

    private static void Piece(
        ulong one,
        ulong two,
        int row,
        double* first,
        double* second,
        int count,
        bool isNormal,
        LaneWidth lanes
    )
    {
        var skip = unchecked((ulong)row * MixedCounterScalar.Gamma);
        Uniforms(unchecked(one + skip), first, count, lanes);
        Uniforms(unchecked(two + skip), second, count, lanes);
        if (isNormal)
        {
            ToNormals(first, second, count, lanes);
        }
    }

    private static void Uniforms(ulong start, double* result, int count, LaneWidth lanes)
    {
        switch (lanes)
        {
            case LaneWidth.Eight:
                MixedCounterLanes512.Fill(start, result, count);
                break;
            case LaneWidth.Four:
                MixedCounterLanes256.Fill(start, result, count);
                break;
            default:
                MixedCounterScalar.Fill(start, result, count);
                break;
        }
    }

    /// <summary>Turns pairs of uniform numbers into pairs of standard normal ones; in place.</summary>
    internal static void ToNormals(double* first, double* second, int count, LaneWidth lanes)
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
