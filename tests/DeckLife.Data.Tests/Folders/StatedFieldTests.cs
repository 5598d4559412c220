using System.Runtime.CompilerServices;
using DeckLife.Data.Folders;
using Xunit;

namespace DeckLife.Data.Tests.Folders;

public class StatedFieldTests
{
    [Fact]
    public void Read_DemoDeck_EachStatedFieldStandsOnTheLineItNames()
    {
        var folder = Demo();
        var deck = DeckFolder.Read(folder).Deck!;
        var lines = File.ReadAllLines(Path.Combine(folder, "deck.json"));

        Assert.True(deck.StatedFields.Length > 50);
        foreach (var field in deck.StatedFields.Where(f => f.Row > 0))
        {
            Assert.Equal("deck.json", field.File);
            var key = field.Path.Split('.')[^1].Split('[')[0];
            Assert.Contains($"\"{key}\"", lines[field.Row - 1], StringComparison.Ordinal);
            Assert.Contains(field.Text, lines[field.Row - 1], StringComparison.Ordinal);
        }

        // Read off the file by eye: the second material's coefficient.
        var second = deck.StatedFields.Single(f =>
            f.Path == "materials[1].diffusion.coefficient.mean"
        );
        Assert.Equal("1.6e-12 m2/s", second.Text);
        Assert.Equal(
            ["chlorides", "cover", "half-cell", "sounding"],
            deck.StatedFields.Where(f => f.Row == 0).Select(f => f.Path)
        );
    }

    private static string Demo([CallerFilePath] string path = "") =>
        Path.GetFullPath(
            Path.Combine(
                Path.GetDirectoryName(path)!,
                "..",
                "..",
                "..",
                "demo-data",
                "quillmarsh-crossing"
            )
        );
}
