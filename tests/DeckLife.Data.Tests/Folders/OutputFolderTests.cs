using DeckLife.Data;
using Xunit;

namespace DeckLife.Data.Tests.Folders;

public sealed class OutputFolderTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("decklife-out-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string In(params string[] names) => Path.Combine([folder, .. names]);

    [Fact]
    public void Problem_AFolderThatCanBeMade_NoneAndNothingLeftBehind()
    {
        Assert.Null(OutputFolder.Problem(In("new", "below"), force: false));
        Assert.Null(OutputFolder.Problem(folder, force: false));
        Assert.Empty(Directory.GetFileSystemEntries(folder));
    }

    [Fact]
    public void Problem_AFolderThatHoldsSomething_OnlyWithForceOrWhereItIsOurs()
    {
        File.WriteAllText(In("mine.txt"), "mine");

        Assert.Equal("DL5001", OutputFolder.Problem(folder, force: false)!.Code);
        Assert.Null(OutputFolder.Problem(folder, force: true));
        Assert.Null(
            OutputFolder.Problem(
                folder,
                force: false,
                e => e.EndsWith("mine.txt", StringComparison.Ordinal)
            )
        );
    }

    [Fact]
    public void Problem_AFileOrBelowAFile_SaysWhichFile()
    {
        File.WriteAllText(In("mine.txt"), "mine");

        Assert.Contains(
            "it is a file",
            OutputFolder.Problem(In("mine.txt"), force: true)!.Text,
            StringComparison.Ordinal
        );
        var below = OutputFolder.Problem(In("mine.txt", "out"), force: true)!;
        Assert.Equal("DL5005", below.Code);
        Assert.Contains($"{In("mine.txt")} is a file", below.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Problem_ANameThatIsNone_IsOne() =>
        Assert.Equal("DL5005", OutputFolder.Problem("a\0b", force: true)!.Code);
}
