using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.Sampling;

public class RandomStreamTests
{
    // numpy.random.Philox(key=[k0, k1], counter=[c0, c1, 0, 0]).random_raw, NumPy 1.24.2, which advances the counter before a block.
    [Theory]
    [InlineData(
        7UL,
        11UL,
        0UL,
        6UL,
        new ulong[]
        {
            0xadd64ee31a16f65c,
            0x5d2a2854e9681861,
            0xa593fb426c85431a,
            0x952fbf8b4e298a9,
        }
    )]
    [InlineData(
        7UL,
        11UL,
        1UL,
        5UL,
        new ulong[]
        {
            0xbd0a0e8e562fb9c0,
            0xaf948312b77a3b4b,
            0x84eff12e4af61459,
            0x668b2b275aa5c228,
        }
    )]
    [InlineData(
        0xdeadbeefcafebabeUL,
        0x0123456789abcdefUL,
        42UL,
        3UL,
        new ulong[]
        {
            0xe176b410d41072eb,
            0x5d761b67939d24fd,
            0x843c7deb281433ad,
            0x8379b50d7d0cfcb9,
        }
    )]
    public void Block_AgainstNumPy_SameBits(
        ulong key0,
        ulong key1,
        ulong counter0,
        ulong counter1,
        ulong[] expected
    )
    {
        var first = RandomStream.Block(
            key0,
            key1,
            counter0,
            counter1,
            out var b,
            out var c,
            out var d
        );
        Assert.Equal(expected, new[] { first, b, c, d });
    }

    [Fact]
    public void NextBits_OfAStream_AreItsBlocksInOrder()
    {
        var stream = new RandomStream(7, 11, 6);
        ulong[] expected =
        [
            0xadd64ee31a16f65c,
            0x5d2a2854e9681861,
            0xa593fb426c85431a,
            0x952fbf8b4e298a9,
            0xb9b118219ee11da,
            0xd875fbbea0290dae,
            0xf6241fdaf5984d11,
            0xd58d5719a2816d5f,
        ];
        Assert.Equal(expected, Enumerable.Range(0, 8).Select(_ => stream.NextBits()));
    }

    [Fact]
    public void Streams_OfOtherSeedPurposeOrIndex_Differ()
    {
        var first = new[]
        {
            new RandomStream(0, "cover", 0),
            new RandomStream(1, "cover", 0),
            new RandomStream(0, "Cover", 0),
            new RandomStream(0, "cover", 1),
            new RandomStream(0, "", 0),
        }.Select(s => s.NextBits());
        Assert.Equal(5, first.Distinct().Count());
    }

    [Fact]
    public void ToUniform_OfExtremeBits_StaysInsideTheInterval()
    {
        Assert.True(RandomStream.ToUniform(0) > 0);
        Assert.True(RandomStream.ToUniform(ulong.MaxValue) < 1);
    }

    // Moments of 2^18 numbers; the limits are 4.5 standard errors, so with this fixed seed a failure means a fault.
    [Fact]
    public void NextNormal_Moments_AreThoseOfTheNormal()
    {
        var stream = new RandomStream(20, "moments");
        const int count = 1 << 18;
        double sum1 = 0,
            sum2 = 0,
            sum3 = 0,
            sum4 = 0;
        for (var i = 0; i < count; i++)
        {
            var z = stream.NextNormal();
            sum1 += z;
            sum2 += z * z;
            sum3 += z * z * z;
            sum4 += z * z * z * z;
        }

        var unit = 4.5 / Math.Sqrt(count);
        Assert.InRange(sum1 / count, -unit, unit);
        Assert.InRange((sum2 / count) - 1, -unit * Math.Sqrt(2), unit * Math.Sqrt(2));
        Assert.InRange(sum3 / count, -unit * Math.Sqrt(15), unit * Math.Sqrt(15));
        Assert.InRange((sum4 / count) - 3, -unit * Math.Sqrt(96), unit * Math.Sqrt(96));
    }

    [Fact]
    public void FillNormal_AgainstNextNormal_SameToRounding()
    {
        var values = new double[1003];
        new RandomStream(3, "fill").FillNormal(values);
        var stream = new RandomStream(3, "fill");
        foreach (var value in values)
        {
            Assert.Equal(stream.NextNormal(), value, 1e-14);
        }
    }

    [Fact]
    public void NextLognormal_WithoutSpread_IsTheMedian() =>
        Assert.Equal(Math.Exp(1.5), new RandomStream(1, "x").NextLognormal(1.5, 0));

    [Fact]
    public void NextInteger_OverManyDraws_IsUniform()
    {
        var counts = new int[6];
        var stream = new RandomStream(5, "die");
        for (var i = 0; i < 60000; i++)
        {
            counts[stream.NextInteger(6)]++;
        }

        // Chi-square with 5 degrees of freedom: 20.5 is its 99.9 % point (tables).
        Assert.True(counts.Sum(c => (c - 10000.0) * (c - 10000.0) / 10000) < 20.5);
    }
}
