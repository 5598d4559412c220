using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

/// <summary>Where the head, the units and the rows of a sheet stand, and what beside them is told or refused.</summary>
public class TableLayoutTests
{
    private const string Head = "core,top_mm,bottom_mm,chloride_kg_per_m3";
    private const string Rows = "\nC1,0,10,3\nC1,10,20,2\n";

    private static ChlorideTableResult Read(
        string text,
        params (string Head, string Column)[] names
    ) =>
        ChlorideTable.Read(
            "chlorides.csv",
            Encoding.UTF8.GetBytes(text),
            new()
            {
                ExposureAge = Age.FromYears(20),
                ColumnNames = names.Aggregate(
                    new ChlorideTableOptions().ColumnNames,
                    (all, n) => all.Add(n.Head, n.Column)
                ),
            }
        );

    private static Diagnostic Only(ChlorideTableResult result, string code)
    {
        Assert.Equal([code], result.Problems.Select(p => p.Code).Distinct());
        return result.Problems[0];
    }

    [Theory]
    [InlineData("Results of the laboratory\n", "one row", "'Results of the laboratory'.")]
    [InlineData("A,,B\n\nC\nD\nE\n", "4 rows", "'A, B', 'C', 'D'.")]
    public void Read_TitleRows_SaidWithTheFirstThree(string titles, string number, string says)
    {
        var result = ChlorideTableTests.Usable(Read(titles + Head + Rows));
        var note = Only(result, "DL1040");

        Assert.Contains(number, note.Text, StringComparison.Ordinal);
        Assert.Contains(says, note.Text, StringComparison.Ordinal);
        Assert.Equal(titles.Split('\n').Length, note.Row);
        Assert.Equal(2, result.Cores[0].Slices.Length);
    }

    [Theory]
    [InlineData("sep=,\n")]
    [InlineData("# made by hand\n")]
    [InlineData("\n,,,\n")]
    public void Read_WhatIsNoTitle_NothingSaid(string above) =>
        Assert.Empty(ChlorideTableTests.Usable(Read(above + Head + Rows)).Problems);

    // The head is looked for in the first hundred rows.
    [Theory]
    [InlineData(99, true)]
    [InlineData(100, false)]
    public void Read_HeadFarDown_FoundWithinAHundredRows(int above, bool found)
    {
        var result = Read(string.Concat(Enumerable.Repeat("# note\n", above)) + Head + Rows);

        Assert.Equal(found, result.IsUsable);
        if (!found)
        {
            Only(result, "DL1006");
        }
    }

    [Theory]
    [InlineData("chlorid_kg_per_m3", "DL1010", "chloride")]
    [InlineData("detection_limt", "DL1010", "detection_limit")]
    [InlineData("replciate", "DL1010", "replicate")]
    [InlineData("colour", "DL1009", "detection_limit, sd, n")]
    [InlineData("ab", "DL1009", "core, top, bottom")]
    public void Read_UnknownHead_NearestNameOrTheKnownOnes(string head, string code, string says)
    {
        var problem = Assert.Single(
            Read($"{Head},{head}\nC1,0,10,3,1\n").Problems,
            p => p.Code == code
        );

        Assert.Equal((1, head), (problem.Row, problem.Column));
        Assert.Contains(says, problem.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("remark", problem.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_RemarkColumns_HoldAnythingInSilence()
    {
        var result = ChlorideTableTests.Usable(
            Read($"{Head},remark,notes\nC1,0,10,3,\"wet; two\nlines\",4 °C\n")
        );

        Assert.Empty(result.Problems);
        Assert.Equal(2, Assert.Single(result.Cores[0].Slices).Row);
    }

    // Where the caller says which column names the cores, another of that meaning is a remark.
    [Fact]
    public void Read_ColumnNamedByTheCaller_TheOtherIsSaidNotToBeRead()
    {
        var result = ChlorideTableTests.Usable(
            Read(
                "core,top_mm,bottom_mm,chloride_kg_per_m3,Probe\nC1,0,10,3,P7\n",
                ("probe", "core")
            )
        );
        Assert.Equal("P7", result.Cores[0].Core);
        Assert.Equal("core", Only(result, "DL1009").Column);
    }

    [Theory]
    [InlineData("core,top,bottom,chloride\n,in,in,kg/m3\nC1,1,2,3\n")]
    [InlineData("core,top,bottom,chloride\n(core),(in),[in],(kg/m3)\nC1,1,2,3\n")]
    [InlineData("core,top_in,bottom_in,chloride\n,,,kg/m3\nC1,1,2,3\n")]
    [InlineData("# units: top in; bottom in; chloride kg/m3\ncore,top,bottom,chloride\nC1,1,2,3\n")]
    [InlineData("# UNITS: depth=in, chloride=kg/m3\ncore,top,bottom,chloride\nC1,1,2,3\n")]
    [InlineData("core,top,bottom,chloride\n# units: from: in; to: in; chloride: kg/m3\nC1,1,2,3\n")]
    public void Read_UnitsOnceForTheColumn_Understood(string text)
    {
        var result = ChlorideTableTests.Usable(Read(text));

        var slice = Assert.Single(Assert.Single(result.Cores).Slices);
        Assert.Equal((25.4, 50.8), (slice.Top.Millimetres, slice.Bottom.Millimetres));
        Assert.Equal(3, slice.Content.KilogramsPerCubicMetre);
        Assert.Equal(("in", "kg/m3"), (result.DepthUnit?.Name, result.ContentUnit?.Name));
    }

    [Theory]
    [InlineData("# units: depth in; cover mm\n", "DL1017", "'cover'")]
    [InlineData("# units: depth\n", "DL1017", "")]
    [InlineData("# units: depth in\n# units: depth mm\n", "DL1016", "")]
    public void Read_UnitsLineWithAFault_Error(string line, string code, string says)
    {
        var problem = Read(line + "core,top,bottom,chloride_kg_per_m3\nC1,1,2,3\n")
            .Problems.First(p => p.Severity == Severity.Error);

        Assert.Equal(code, problem.Code);
        Assert.Contains(says, problem.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_UnitInTheHeadAndInAColumn_Error() =>
        Assert.Equal(
            "chloride_kg_per_m3",
            ChlorideTableTests.OnlyError(Read(Head + ",unit\nC1,0,10,3,kg/m3\n"), "DL1016").Column
        );

    [Theory]
    [InlineData("C1,0,10,3,7", "DL1012", "7")]
    [InlineData("C1,0,10,3,,,7", "DL1012", "Decimal commas?")]
    [InlineData("C1,0,10,\"3\"x", "DL1011", "text follows a closing quote")]
    [InlineData("C1,0,10,\"3", "DL1011", "a quote is never closed")]
    [InlineData("\"C\n1\",0,10,3", "DL1011", "a cell runs over several lines")]
    public void Read_RowThatCanNotBeTakenApart_Error(string row, string code, string says)
    {
        var error = ChlorideTableTests.OnlyError(Read($"{Head}\n{row}\n"), code);

        Assert.Contains(says, error.Text + error.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_CellUnderNoHead_ErrorWithItsColumnNumber() =>
        Assert.Contains(
            "5",
            ChlorideTableTests.OnlyError(Read($"{Head},,remark\nC1,0,10,3,7,\n"), "DL1043").Text,
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData(true, "PK\u0003\u0004", "a zip archive")]
    [InlineData(true, "%PDF-1.7", "a PDF")]
    [InlineData(true, "core,top\u0001\n", "binary content")]
    [InlineData(true, "", "empty")]
    public void Read_WhatIsNoText_SaysWhatItIs(bool isText, string content, string says)
    {
        Assert.True(isText);
        Assert.Contains(
            says,
            ChlorideTableTests.OnlyError(Read(content), "DL1004").Text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Read_FileThatIsNotThereOrAFolder_SaidNotThrown()
    {
        var folder = Directory.CreateTempSubdirectory("decklife-layout-");
        try
        {
            var missing = ChlorideTable.Read(Path.Combine(folder.FullName, "a.csv"), new());
            Assert.Equal(
                ("DL1001", "a.csv"),
                (Only(missing, "DL1001").Code, missing.Problems[0].File)
            );
            Assert.Null(missing.Input);
            Only(ChlorideTable.Read(folder.FullName, new()), "DL1002");
            var path = Path.Combine(folder.FullName, "b.csv");
            File.WriteAllText(path, Head + Rows);
            var there = ChlorideTable.Read(path, new() { ExposureAge = Age.FromYears(20) });
            Assert.Equal(2, ChlorideTableTests.Usable(there).Cores[0].Slices.Length);
            // SHA-256 of the same bytes, by the runtime.
            Assert.Equal(
                Convert.ToHexStringLower(
                    System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(path))
                ),
                there.Input!.Sha256
            );
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void Add_MoreThanAHundredOfAKind_TheRestIsCounted()
    {
        var problems = new ProblemList("a.csv");
        for (var i = 103; i >= 1; i--)
        {
            problems.Add(DiagnosticCatalogue.ContentZero, i, "chloride", "0", new string('x', 500));
        }

        problems.AddOnce(DiagnosticCatalogue.CentresOnly, null, "depth", null);
        problems.AddOnce(DiagnosticCatalogue.CentresOnly, null, "depth", null);
        var all = problems.ToImmutable();

        Assert.Equal(102, all.Length);
        Assert.Equal(
            [null, .. Enumerable.Range(4, 100).Select(i => (int?)i), null],
            all.Select(p => p.Row)
        );
        Assert.Contains("3", all[^1].Text, StringComparison.Ordinal);
        Assert.Contains("DL1032", all[^1].Text, StringComparison.Ordinal);
        Assert.All(all, p => Assert.Equal("a.csv", p.File));
        Assert.False(problems.HasErrors);
        Assert.Contains(new string('x', 400) + "…", all[1].Text, StringComparison.Ordinal);
        Assert.DoesNotContain(new string('x', 401), all[1].Text, StringComparison.Ordinal);
        Assert.Equal("a·b", ProblemList.Shorten("a\u0007b"));
    }

    private static CoreProfile Core(string name, params ChlorideSlice[] slices) =>
        new()
        {
            Core = name,
            ExposureAge = Age.FromYears(20),
            Slices = [.. slices],
        };

    private static ChlorideSlice Slice(double top, double bottom, double content) =>
        new()
        {
            Top = Depth.FromMillimetres(top),
            Bottom = Depth.FromMillimetres(bottom),
            Content = ChlorideContent.FromKilogramsPerCubicMetre(content),
        };

    private static string Written(ChlorideTableWriter writer, params CoreProfile[] cores)
    {
        var text = new StringWriter();
        writer.Write(cores, text);
        return text.ToString();
    }

    private static ChlorideTableWriter Writer(string depth = "in") =>
        new()
        {
            DepthUnit = Units.Of(Dimension.Length).Single(u => u.Name == depth),
            ContentUnit = Units.Of(Dimension.Chloride).Single(u => u.Name == "ppm"),
            Mix = new ConcreteMix(2000, 0),
        };

    // 25.4 mm to the inch; 3 kg in 2000 kg is 1500 ppm.
    [Fact]
    public void Write_Cores_AsALaboratoryWould()
    {
        var plain = Core("C1", Slice(0, 25.4, 3), Slice(25.4, 50.8, 1) with { IsNonDetect = true });
        Assert.Equal(
            "core,age_yr,top_in,bottom_in,chloride_ppm,n,on_crack\nC1,20,0,1,1500,1,no\nC1,20,1,2,<500,1,no\n",
            Written(Writer(), plain)
        );
        Assert.Equal(
            "core;age_yr;top_in;bottom_in;chloride_ppm;n;on_crack;sd_ppm;x_m;y_m\n\"C;\"\"1\"\"\";20;0;0,5;1500;2;yes;250;3,5;-1\nC2;20;0;1;1500;1;no;;;\n",
            Written(
                Writer() with
                {
                    DecimalComma = true,
                    Separator = ';',
                },
                Core(
                    "C;\"1\"",
                    Slice(0, 12.7, 3) with
                    {
                        Replicates = 2,
                        StandardDeviation = 0.5,
                    }
                ) with
                {
                    OnCrack = true,
                    X = 3.5,
                    Y = -1,
                },
                Core("C2", Slice(0, 25.4, 3))
            )
        );
        Assert.Equal(
            "core,age_yr,depth_mm,chloride_ppm,n,on_crack\nC1,20,5,1500,1,no\n",
            Written(Writer("mm"), Core("C1", Slice(5, 5, 3)))
        );
        Assert.Equal(
            "core,age_yr,top_mm,bottom_mm,chloride_ppm,n,on_crack\n",
            Written(Writer("mm"))
        );
    }

    [Fact]
    public void Write_WhatCanNotBeReadBack_Refused()
    {
        Assert.Throws<ArgumentException>(() =>
            Written(Writer() with { DecimalComma = true }, Core("C1", Slice(0, 10, 1)))
        );
        Assert.Throws<ArgumentException>(() =>
            Written(Writer(), Core("C1", Slice(0, 10, 1), Slice(15, 15, 1)))
        );
        Assert.Throws<ArgumentException>(() => Written(Writer(), Core("C\n1", Slice(0, 10, 1))));
    }
}
