using DeckLife.Data.Folders;
using DeckLife.Data.Tests.Folders;
using DeckLife.Data.Tests.Tables;
using Xunit;

namespace DeckLife.Data.Tests.Diagnostics;

/// <summary>Each input provokes one message of the catalogue that no other test asks for.</summary>
public sealed class ProvokedMessageTests : IDisposable
{
    private const string Head = "core,top_mm,bottom_mm,chloride_kg_per_m3";

    private readonly string folder = Directory.CreateTempSubdirectory("decklife-message-").FullName;

    public ProvokedMessageTests()
    {
        foreach (
            var file in Directory.GetFiles(Path.Combine(DeckFolderTests.Inputs, "minimal-deck"))
        )
        {
            File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        }
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData("DL1006", "some,words\nof,no\nmeaning,here\n")]
    [InlineData("DL1009", Head + ",colour of paste\nC1,0,10,3,grey\nC1,10,20,2,grey\n")]
    [InlineData("DL1021", "core;top_mm;bottom_mm;chloride_kg_per_m3\nC1;0;10;3,5\nC1;10;20;2.5\n")]
    [InlineData("DL1026", Head + "\nC1,0,12,3\nC1,8,20,2\n")]
    [InlineData(
        "DL1027",
        "core,depth_mm,top_mm,bottom_mm,chloride_kg_per_m3\nC1,5,0,10,3\nC1,15,10,20,2\n"
    )]
    [InlineData("DL1031", Head + "\nC1,0,10,60\nC1,10,20,2\n")]
    [InlineData("DL1036", Head + "\nC-1,0,10,3\nC-1,10,20,2\nC 1,0,10,4\nC 1,10,20,3\n")]
    [InlineData(
        "DL1038",
        Head + ",replicate\nC1,0,10,3,1\nC1,0,10,<0.5,2\nC1,10,20,2,1\nC1,20,30,1,1\n"
    )]
    [InlineData("DL1041", Head + ",on_crack\nC1,0,10,3,perhaps\nC1,10,20,2,perhaps\n")]
    [InlineData("DL1042", Head + ",x_m\nC1,0,10,3,4\nC1,10,20,2,4\n")]
    public void Read_ChlorideTable_Provokes(string code, string text) =>
        Assert.Contains(ChlorideTableTests.Read(text).Problems, p => p.Code == code);

    [Fact]
    public void Read_ChlorideTableWithoutAnyAge_Provokes() =>
        Assert.Contains(
            Data.Tables.ChlorideTable.Read(
                "chlorides.csv",
                System.Text.Encoding.UTF8.GetBytes(Head + "\nC1,0,10,3\nC1,10,20,2\n"),
                new Data.Tables.ChlorideTableOptions()
            ).Problems,
            p => p.Code == "DL1033"
        );

    [Theory]
    [InlineData("DL1002", "cover.csv", "cover.xlsx", "PK\u0003\u0004 not an archive")]
    [InlineData("DL1037", "half-cell.csv", "half-cell.csv", "x_ft,y_ft,potential_mv_cse\n")]
    [InlineData(
        "DL1123",
        "sounding.csv",
        "sounding.csv",
        "finding,station_from_ft,station_to_ft,offset_from_ft,offset_to_ft\ndelaminated,70,92,8,14\n"
    )]
    [InlineData(
        "DL1203",
        "half-cell.csv",
        "half-cell.csv",
        "x_ft,y_ft,potential_mv_cse\n10,10,-120\n30,10,-910\n50,10,-210\n"
    )]
    [InlineData(
        "DL1304",
        "sounding.csv",
        "sounding.csv",
        "finding,x_min_ft,x_max_ft,y_min_ft,y_max_ft\ndelaminated,70,92,8,14\ndelaminated,80,95,8,14\n"
    )]
    [InlineData(
        "DL1305",
        "sounding.csv",
        "sounding.csv",
        "finding,x_min_ft,x_max_ft,y_min_ft,y_max_ft\ndelaminated,0,200,0,40\n"
    )]
    public void Read_FolderWithAnotherTable_Provokes(
        string code,
        string replaced,
        string file,
        string text
    )
    {
        File.Delete(Path.Combine(folder, replaced));
        File.WriteAllText(Path.Combine(folder, file), text);

        AssertProvoked(code);
    }

    [Theory]
    [InlineData(
        "DL1118",
        "deck.json",
        "\"deckThickness\": \"8 in\"",
        "\"deckThickness\": \"3 in\""
    )]
    [InlineData("DL1119", "deck.json", "\"chlorides\": { \"extraction\": \"acid-soluble\" },", "")]
    [InlineData(
        "DL1121",
        "deck.json",
        "\"area\": \"4000 ft2\",",
        "\"area\": \"4000 ft2\", \"length\": \"100 ft\", \"width\": \"40 ft\","
    )]
    [InlineData(
        "DL1122",
        "deck.json",
        "\"area\": \"4000 ft2\",",
        "\"area\": \"4000 ft2\", \"length\": \"400 ft\", \"width\": \"40 ft\","
    )]
    public void Read_FolderWithAnotherValue_Provokes(
        string code,
        string file,
        string old,
        string replacement
    )
    {
        var path = Path.Combine(folder, file);
        var text = File.ReadAllText(path);
        Assert.Contains(old, text, StringComparison.Ordinal);
        File.WriteAllText(path, text.Replace(old, replacement, StringComparison.Ordinal));

        AssertProvoked(code);
    }

    private void AssertProvoked(string code)
    {
        var problems = DeckFolder.Read(folder).Problems;
        var found = problems.FirstOrDefault(p => p.Code == code);
        Assert.True(found is not null, string.Join('\n', problems));
        Assert.DoesNotContain("{", found.Text, StringComparison.Ordinal);
    }
}
