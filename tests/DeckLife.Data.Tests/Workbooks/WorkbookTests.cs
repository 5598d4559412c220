using System.IO.Compression;
using DeckLife.Data.Tests.Tables;
using Xunit;

namespace DeckLife.Data.Tests.Workbooks;

public class WorkbookTests
{
    private static readonly object?[] Head = ["core", "top_in", "bottom_in", "chloride_lb_per_yd3"];

    [Fact]
    public void Read_SheetOfAWorkbook_SameAsText()
    {
        var bytes = InventedWorkbook.Write(
            (
                "Read me",
                [
                    ["invented"],
                ]
            ),
            (
                "Chlorides",
                [
                    ["Invented laboratory"],
                    [],
                    Head,
                    ["C1", 0.25, 0.75, 9.1],
                    [null, null, null, null],
                    ["C1", "3/4", "1 1/4", "<0.5"],
                ]
            )
        );

        var core = Assert.Single(
            ChlorideTableTests.Usable(ChlorideTableTests.Read(bytes, name: "lab.xlsx")).Cores
        );

        Assert.Equal([4, 6], core.Slices.Select(s => s.Row));
        Assert.Equal(9.1, core.Slices[0].Content.PoundsPerCubicYard, 12);
        Assert.Equal(31.75, core.Slices[1].Bottom.Millimetres, 12);
        Assert.True(core.Slices[1].IsNonDetect);
    }

    [Fact]
    public void Read_DatesInDateCells_Exact()
    {
        var bytes = InventedWorkbook.Write(
            (
                "Sheet1",
                [
                    [.. Head, "sampled", "first_salt"],
                    ["C1", 0.25, 0.75, 9.1, new DateOnly(2031, 6, 15), new DateOnly(2001, 6, 15)],
                ]
            )
        );

        var core = Assert.Single(
            ChlorideTableTests.Usable(ChlorideTableTests.Read(bytes, name: "lab.xlsx")).Cores
        );

        Assert.Equal(10957 / 365.25, core.ExposureAge.Years, 12);
    }

    [Fact]
    public void Read_FractionThatBecameADateCell_ErrorNamesCellAndCause()
    {
        var bytes = InventedWorkbook.Write(
            ("Sheet1", [Head, ["C1", new DateOnly(2025, 1, 2), 0.75, 9.1]])
        );

        var error = ChlorideTableTests.OnlyError(
            ChlorideTableTests.Read(bytes, name: "lab.xlsx"),
            "DL1019"
        );

        Assert.Equal((2, "top_in", "2025-01-02"), (error.Row, error.Column, error.Value));
    }

    [Fact]
    public void Read_NoSheetOfThatName_ErrorListsTheSheets()
    {
        var bytes = InventedWorkbook.Write(("North", [Head]), ("South", [Head]));

        var error = ChlorideTableTests.OnlyError(
            ChlorideTableTests.Read(bytes, name: "lab.xlsx"),
            "DL1001"
        );

        Assert.Contains("'North', 'South'", error.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ArchiveThatUnpacksWithoutEnd_RefusedWithoutUnpackingIt()
    {
        using var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, true))
        {
            var zeros = new byte[1 << 20];
            using var entry = archive
                .CreateEntry("xl/worksheets/sheet1.xml", CompressionLevel.Fastest)
                .Open();
            for (var i = 0; i < 600; i++)
            {
                entry.Write(zeros);
            }
        }

        ChlorideTableTests.OnlyError(
            ChlorideTableTests.Read(stream.ToArray(), name: "bomb.xlsx"),
            "DL1003"
        );
    }

    [Fact]
    public void Read_ArchiveOfMorePartsThanAWorkbookHas_Refused()
    {
        using var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, true))
        {
            for (var i = 0; i < 2001; i++)
            {
                archive.CreateEntry($"xl/{i}");
            }
        }

        ChlorideTableTests.OnlyError(
            ChlorideTableTests.Read(stream.ToArray(), name: "parts.xlsx"),
            "DL1003"
        );
    }

    [Fact]
    public void Read_WorkbookNamedCsv_SaidSo()
    {
        var bytes = InventedWorkbook.Write(("Sheet1", [Head]));

        Assert.Contains(
            "workbook under another name",
            ChlorideTableTests.OnlyError(ChlorideTableTests.Read(bytes), "DL1004").Text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Read_BrokenWorkbooks_ListedProblemsNeverAnException()
    {
        var sound = InventedWorkbook.Write(
            ("chlorides", [Head, ["C1", 0.25, 0.75, 9.1], ["C1", 0.75, 1.25, 6.2]])
        );
        var random = new Random(20311);
        for (var i = 0; i < 400; i++)
        {
            var bytes = sound.ToArray();
            for (var n = random.Next(1, 12); n > 0; n--)
            {
                bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            }

            if (i % 4 == 0)
            {
                bytes = bytes[..random.Next(1, bytes.Length)];
            }

            var result = ChlorideTableTests.Read(bytes, name: "lab.xlsx");
            Assert.True(
                result.IsUsable
                    ? result.Cores.Sum(c => c.Slices.Length) == 2
                    : result.Cores.IsEmpty,
                $"change {i}"
            );
        }
    }
}
