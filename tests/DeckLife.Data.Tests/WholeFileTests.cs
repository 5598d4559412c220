using Xunit;

namespace DeckLife.Data.Tests;

public sealed class WholeFileTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("decklife-whole-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task WriteText_OverAnOlderFile_OnlyTheNewOneWithoutAMark()
    {
        var path = Path.Combine(folder.FullName, "a.txt");
        await File.WriteAllTextAsync(path, "a longer text that was there");

        await WholeFile.WriteTextAsync(path, "½ in\n");

        Assert.Equal(
            [0xC2, 0xBD, (byte)' ', (byte)'i', (byte)'n', (byte)'\n'],
            await File.ReadAllBytesAsync(path)
        );
        Assert.Equal(["a.txt"], folder.GetFiles().Select(f => f.Name));
    }

    [Fact]
    public async Task Write_FailsHalfway_OldFileStaysAndNothingElse()
    {
        var path = Path.Combine(folder.FullName, "a.txt");
        await File.WriteAllTextAsync(path, "old");

        await Assert.ThrowsAsync<InvalidOperationException>(() =>
            WholeFile.WriteAsync(
                path,
                async stream =>
                {
                    await stream.WriteAsync(new byte[10]);
                    throw new InvalidOperationException("no more");
                }
            )
        );

        Assert.Equal("old", await File.ReadAllTextAsync(path));
        Assert.Equal(["a.txt"], folder.GetFiles().Select(f => f.Name));
    }

    // Until it is whole, what is written stands under another name that no reader takes.
    [Fact]
    public async Task Write_WhileItIsWritten_NothingBearsTheName()
    {
        var path = Path.Combine(folder.FullName, "a.parquet");

        await WholeFile.WriteAsync(
            path,
            stream =>
            {
                Assert.False(File.Exists(path));
                Assert.EndsWith(
                    ".tmp",
                    Assert.Single(folder.GetFiles()).Name,
                    StringComparison.Ordinal
                );
                return stream.WriteAsync(new byte[3]).AsTask();
            }
        );

        Assert.Equal(3, new FileInfo(path).Length);
    }
}
