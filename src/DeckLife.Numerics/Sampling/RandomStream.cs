using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace DeckLife.Numerics.Sampling;

/// <summary>
/// A counter-based stream of random numbers named by (seed, purpose, index): any number of it can be computed on its own,
/// two names never share a key and a counter, and nothing is shared between threads.
/// </summary>
/// <remarks>
/// Equation: Philox4x64 with 10 rounds, key (seed, purpose), counter (block, index, 0, 0).
/// Source: Salmon, Moraes, Dror &amp; Shaw, Parallel random numbers: as easy as 1, 2, 3, SC11 (2011), section 3 and table 2.
/// Accuracy: uniforms have 52 random bits and lie strictly between 0 and 1. Checked by: RandomStreamTests, against NumPy's Philox.
/// One stream object serves one thread at a time; make as many as there are pieces of work.
/// </remarks>
[SuppressMessage(
    "Naming",
    "CA1711:Identifiers should not have incorrect suffix",
    Justification = "A random stream is the term of the field; it is no System.IO.Stream."
)]
public sealed class RandomStream
{
    private const ulong MultiplierA = 0xD2E7470EE14C6C93;
    private const ulong MultiplierB = 0xCA5A826395121157;
    private const ulong WeylA = 0x9E3779B97F4A7C15; // golden ratio
    private const ulong WeylB = 0xBB67AE8584CAA73B; // sqrt(3) - 1

    private readonly ulong _seed;
    private readonly ulong _purpose;
    private readonly ulong _index;
    private ulong _block;
    private ulong _word1;
    private ulong _word2;
    private ulong _word3;
    private int _left;

    /// <summary>Names a stream.</summary>
    /// <param name="seed">Seed; 0 is a seed like any other.</param>
    /// <param name="purpose">What the numbers are for; another text gives another stream.</param>
    /// <param name="index">Number of the draw, core, deck or chunk within the purpose.</param>
    public RandomStream(ulong seed, string purpose, ulong index = 0)
        : this(seed, PurposeKey(purpose), index) { }

    /// <summary>Names a stream by a numeric purpose.</summary>
    /// <param name="seed">Seed; 0 is a seed like any other.</param>
    /// <param name="purpose">What the numbers are for.</param>
    /// <param name="index">Number of the draw, core, deck or chunk within the purpose.</param>
    public RandomStream(ulong seed, ulong purpose, ulong index = 0)
    {
        _seed = seed;
        _purpose = purpose;
        _index = index;
    }

    /// <summary>The seed.</summary>
    public ulong Seed => _seed;

    /// <summary>The index within the purpose.</summary>
    public ulong Index => _index;

    /// <summary>A key for a purpose given in words: FNV-1a over its UTF-16 code units, the same on every machine.</summary>
    /// <param name="purpose">The words.</param>
    public static ulong PurposeKey(string purpose)
    {
        ArgumentNullException.ThrowIfNull(purpose);
        var hash = 0xCBF29CE484222325UL;
        foreach (var unit in purpose)
        {
            hash = (hash ^ (byte)unit) * 0x100000001B3;
            hash = (hash ^ (byte)(unit >> 8)) * 0x100000001B3;
        }

        return hash;
    }

    /// <summary>The next 64 random bits.</summary>
    public ulong NextBits()
    {
        switch (_left)
        {
            case 3:
                _left = 2;
                return _word1;
            case 2:
                _left = 1;
                return _word2;
            case 1:
                _left = 0;
                return _word3;
            default:
                var first = Block(
                    _seed,
                    _purpose,
                    _block,
                    _index,
                    out _word1,
                    out _word2,
                    out _word3
                );
                _block++;
                _left = 3;
                return first;
        }
    }

    /// <summary>The next uniform number, strictly between 0 and 1.</summary>
    public double NextUniform() => ToUniform(NextBits());

    /// <summary>The next standard normal number, by the inverse distribution function.</summary>
    public double NextNormal() => NormalQuantile.At(NextUniform());

    /// <summary>The next lognormal number.</summary>
    /// <param name="logMean">Mean of the logarithm.</param>
    /// <param name="logStandardDeviation">Standard deviation of the logarithm, at least 0.</param>
    public double NextLognormal(double logMean, double logStandardDeviation) =>
        Math.Exp(logMean + (logStandardDeviation * NextNormal()));

    /// <summary>The next whole number from 0 to <paramref name="count"/> - 1, each with the same probability.</summary>
    /// <param name="count">Number of values, at least 1.</param>
    public int NextInteger(int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        // Lemire's multiply-and-reject: exact, no modulo bias (ACM TOMACS 29, 2019).
        var range = (ulong)count;
        var high = Math.BigMul(NextBits(), range, out var low);
        if (low < range)
        {
            var floor = unchecked(0UL - range) % range;
            while (low < floor)
            {
                high = Math.BigMul(NextBits(), range, out low);
            }
        }

        return (int)high;
    }

    /// <summary>Fills a span with uniform numbers, continuing the stream.</summary>
    /// <param name="values">Receives the numbers.</param>
    public void FillUniform(Span<double> values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = NextUniform();
        }
    }

    /// <summary>Fills a span with standard normal numbers, continuing the stream.</summary>
    /// <param name="values">Receives the numbers.</param>
    public void FillNormal(Span<double> values)
    {
        FillUniform(values);
        NormalQuantile.At(values, values);
    }

    /// <inheritdoc/>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"stream {_seed}/{_purpose:x16}/{_index}");

    internal static double ToUniform(ulong bits) => ((bits >> 12) + 0.5) * (1.0 / (1UL << 52));

    internal static ulong Block(
        ulong key0,
        ulong key1,
        ulong counter0,
        ulong counter1,
        out ulong word1,
        out ulong word2,
        out ulong word3
    )
    {
        var c0 = counter0;
        var c1 = counter1;
        ulong c2 = 0;
        ulong c3 = 0;
        for (var round = 0; round < 10; round++)
        {
            var highA = Math.BigMul(MultiplierA, c0, out var lowA);
            var highB = Math.BigMul(MultiplierB, c2, out var lowB);
            c0 = highB ^ c1 ^ key0;
            c2 = highA ^ c3 ^ key1;
            c1 = lowB;
            c3 = lowA;
            key0 = unchecked(key0 + WeylA);
            key1 = unchecked(key1 + WeylB);
        }

        word1 = c1;
        word2 = c2;
        word3 = c3;
        return c0;
    }
}
