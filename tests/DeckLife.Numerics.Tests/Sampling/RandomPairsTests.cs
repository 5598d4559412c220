using System.Runtime.CompilerServices;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;
using Xunit;

namespace DeckLife.Numerics.Tests.Sampling;

public class RandomPairsTests
{
    // Known answers of Philox4x32-10, as the authors' library lists them (from memory; the same by a line-by-line Python reading of the paper).
    [Theory]
    [InlineData(
        new uint[] { 0, 0, 0, 0 },
        0u,
        0u,
        new uint[] { 0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8 }
    )]
    [InlineData(
        new uint[] { 0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff },
        0xffffffffu,
        0xffffffffu,
        new uint[] { 0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd }
    )]
    [InlineData(
        new uint[] { 0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344 },
        0xa4093822u,
        0x299f31d0u,
        new uint[] { 0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1 }
    )]
    public void Block_KnownAnswers_SameBits(uint[] counter, uint key0, uint key1, uint[] expected)
    {
        var keys = new ulong[20];
        PhiloxScalar.Keys(key0, key1, keys);
        PhiloxScalar.Block(keys, counter);
        Assert.Equal(expected, counter);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(1000)]
    [InlineData(2048)]
    public void FillUniform_EveryWidthAndLength_SameBits(int count)
    {
        var (a, b) = Pair(LaneWidth.Scalar, 2048, false);
        foreach (var width in VectorWidth.Available)
        {
            var (c, d) = Pair(width, count, false);
            Assert.Equal(a[..count], c);
            Assert.Equal(b[..count], d);
        }

        Assert.All(a.Concat(b), u => Assert.InRange(u, 1e-17, 1 - 1e-16));
    }

    [Fact]
    public void FillNormal_EveryWidthAndLength_IsThePolarForm()
    {
        var (u, v) = Pair(LaneWidth.Scalar, 1000, false);
        foreach (var width in VectorWidth.Available)
        {
            var (a, b) = Pair(width, 1000, true);
            var (c, d) = Pair(width, 995, true);
            Assert.Equal(a[..995], c);
            Assert.Equal(b[..995], d);
            for (var i = 0; i < a.Length; i++)
            {
                var radius = Math.Sqrt(-2 * Math.Log(u[i]));
                Assert.Equal(radius * Math.Cos(2 * Math.PI * v[i]), a[i], 1e-9);
                Assert.Equal(radius * Math.Sin(2 * Math.PI * v[i]), b[i], 1e-9);
            }
        }
    }

    // Moments within five standard errors, and columns of other seeds, purposes and numbers that have nothing in common.
    [Fact]
    public void FillNormal_OfMany_HasNormalMomentsAndNoCorrelation()
    {
        const int count = 200_000;
        var columns = new List<double[]>();
        foreach (
            var (seed, purpose, index) in new[]
            {
                (1UL, 2UL, 0UL),
                (1UL, 2UL, 1UL),
                (1UL, 3UL, 0UL),
                (2UL, 2UL, 0UL),
                (1UL, 2UL, 1UL << 40),
            }
        )
        {
            var a = new double[count];
            var b = new double[count];
            RandomPairs.FillNormal(seed, purpose, index, a, b);
            columns.AddRange([a, b]);
        }

        var five = 5 / Math.Sqrt(count);
        for (var i = 0; i < columns.Count; i++)
        {
            Assert.Equal(0, columns[i].Average(), five);
            Assert.Equal(1, columns[i].Average(z => z * z), five * Math.Sqrt(2));
            Assert.Equal(3, columns[i].Average(z => z * z * z * z), five * Math.Sqrt(96));
            Assert.Equal(0, columns[i].Skip(1).Zip(columns[i], (x, y) => x * y).Average(), five);
            for (var j = 0; j < i; j++)
            {
                Assert.Equal(0, columns[i].Zip(columns[j], (x, y) => x * y).Average(), five);
            }
        }
    }

    [Fact]
    public void Source_OfTheNarrowFile_IsTheWideOnesWithTheNumberReplaced()
    {
        static string Body(string name, [CallerFilePath] string here = "") =>
            string.Join(
                '\n',
                File.ReadLines(
                        Path.Combine(
                            Path.GetDirectoryName(here)!,
                            "../../../src/DeckLife.Numerics/Sampling",
                            name
                        )
                    )
                    .Where(line => !line.TrimStart().StartsWith("///", StringComparison.Ordinal))
                    .Select(line =>
                        line.Replace("512", "256", StringComparison.Ordinal)
                            .Replace("Avx256F", "Avx2", StringComparison.Ordinal)
                    )
            );
        Assert.Equal(Body("PhiloxLanes512.cs"), Body("PhiloxLanes256.cs"));
    }

    private static (double[] First, double[] Second) Pair(LaneWidth width, int count, bool isNormal)
    {
        var a = new double[count];
        var b = new double[count];
        RandomPairs.Fill(7, 11, 5, a, b, isNormal, width);
        return (a, b);
    }
}
