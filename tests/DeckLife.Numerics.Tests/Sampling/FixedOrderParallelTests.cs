using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.Sampling;

public class FixedOrderParallelTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(8)]
    public void Map_AnyThreads_SameBytes(int threads)
    {
        static double Chunk(int piece)
        {
            var stream = new RandomStream(1, "chunk", (ulong)piece);
            var sum = 0.0;
            for (var i = 0; i < 1000 + (piece * 7 % 400); i++)
            {
                sum += stream.NextNormal();
            }

            return sum;
        }

        var alone = Enumerable.Range(0, 101).Select(Chunk).ToArray();
        var found = FixedOrderParallel.Map(101, Chunk, threads);
        Assert.Equal(
            alone.Select(BitConverter.DoubleToInt64Bits),
            found.Select(BitConverter.DoubleToInt64Bits)
        );
    }

    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    public void Run_PiecesThatThrow_FirstOneIsReported(int threads)
    {
        var thrown = Assert.Throws<InvalidOperationException>(() =>
            FixedOrderParallel.Run(
                50,
                piece =>
                {
                    if (piece % 10 == 7)
                    {
                        throw new InvalidOperationException($"piece {piece}");
                    }
                },
                threads
            )
        );
        Assert.Equal("piece 7", thrown.Message);
    }

    [Fact]
    public void Run_Cancelled_Throws()
    {
        using var source = new CancellationTokenSource();
        Assert.Throws<OperationCanceledException>(() =>
            FixedOrderParallel.Run(
                1000,
                piece =>
                {
                    if (piece == 3)
                    {
                        source.Cancel();
                    }
                },
                2,
                source.Token
            )
        );
    }

    [Fact]
    public void Run_Workspaces_OneAThreadAtMost()
    {
        var made = 0;
        FixedOrderParallel.Run(20, () => Interlocked.Increment(ref made), (_, _) => { }, 3);
        Assert.InRange(made, 1, 3);
    }

    [Theory]
    [InlineData(0, 8, 0)]
    [InlineData(8, 8, 1)]
    [InlineData(9, 8, 2)]
    public void ChunkCount_Covers(int count, int size, int expected) =>
        Assert.Equal(expected, FixedOrderParallel.ChunkCount(count, size));
}
