using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

/// <summary>Each limit of a chloride table from both sides: the last value that is taken, and the first that is not.</summary>
public class ChlorideLimitTests
{
    private const string Metric = "core,top_mm,bottom_mm,chloride_kg_per_m3";

    private static ChlorideTableResult Read(string text, ChlorideTableOptions? options = null) =>
        ChlorideTable.Read(
            "chlorides.csv",
            Encoding.UTF8.GetBytes(text),
            options ?? new() { ExposureAge = Age.FromYears(20), Mix = new ConcreteMix(2400, 400) }
        );

    private static ChlorideSlice OnlySlice(ChlorideTableResult result) =>
        Assert.Single(Assert.Single(ChlorideTableTests.Usable(result).Cores).Slices);

    private static bool Has(ChlorideTableResult result, string code) =>
        result.Problems.Any(p => p.Code == code);

    // 2000 mm, 120 kg/m3, 200 yr, 100 characters, 100 determinations are limits that the messages state.
    [Theory]
    [InlineData(Metric, "C1,1990,2000,3", true)]
    [InlineData(Metric, "C1,1990,2000.1,3", false)]
    [InlineData(Metric, "C1,-0.1,10,3", false)]
    [InlineData(Metric, "C1,0,10,120", true)]
    [InlineData(Metric, "C1,0,10,120.1", false)]
    [InlineData(Metric, "C1,0,10,-0.1", false)]
    [InlineData("core,top_mm,bottom_mm,chloride_percent_of_concrete", "C1,0,10,5", true)]
    [InlineData("core,top_mm,bottom_mm,chloride_percent_of_concrete", "C1,0,10,5.1", false)]
    [InlineData("core,top_mm,bottom_mm,chloride_percent_of_concrete", "C1,0,10,101", false)]
    [InlineData(Metric + ",age_yr", "C1,0,10,3,200", true)]
    [InlineData(Metric + ",age_yr", "C1,0,10,3,200.1", false)]
    [InlineData(Metric + ",age_yr", "C1,0,10,3,0", false)]
    [InlineData(Metric + ",age_yr", "C1,0,10,3,-5", false)]
    [InlineData(Metric + ",sd_kg_per_m3", "C1,0,10,3,0", false)]
    [InlineData(Metric + ",sd_kg_per_m3", "C1,0,10,3,-0.1", false)]
    [InlineData(Metric + ",x_m,y_m", "C1,0,10,3,20000,-20000", true)]
    [InlineData(Metric + ",x_m,y_m", "C1,0,10,3,20001,0", false)]
    [InlineData(Metric + ",x_m,y_m", "C1,0,10,3,0,-20001", false)]
    public void Read_ValueAtALimit_TakenAndBeyondItImpossible(string head, string row, bool taken)
    {
        var result = Read($"{head}\n{row}\n");

        if (taken)
        {
            OnlySlice(result);
        }
        else
        {
            ChlorideTableTests.OnlyError(result, "DL1018");
        }
    }

    [Theory]
    [InlineData("1", 1)]
    [InlineData("100", 100)]
    public void Read_NumberOfDeterminations_Kept(string n, int count) =>
        Assert.Equal(count, OnlySlice(Read($"{Metric},n\nC1,0,10,3,{n}\n")).Replicates);

    [Theory]
    [InlineData("101")]
    [InlineData("-1")]
    public void Read_NumberOfDeterminationsBeyondALimit_Error(string n) =>
        ChlorideTableTests.OnlyError(Read($"{Metric},n\nC1,0,10,3,{n}\n"), "DL1044");

    [Fact]
    public void Read_NameOfACore_AtMostAHundredCharacters()
    {
        Assert.Equal(
            100,
            Assert
                .Single(
                    ChlorideTableTests
                        .Usable(Read($"{Metric}\n{new string('C', 100)},0,10,3\n"))
                        .Cores
                )
                .Core.Length
        );
        ChlorideTableTests.OnlyError(Read($"{Metric}\n{new string('C', 101)},0,10,3\n"), "DL1014");
    }

    [Theory]
    [InlineData("40", false)]
    [InlineData("40.1", true)]
    public void Read_HighContent_WarnedOfAbove40(string content, bool warned) =>
        Assert.Equal(warned, Has(Read($"{Metric}\nC1,0,10,{content}\n"), "DL1031"));

    // Only a content can be "exactly 0": a limit of 0 is none, and says nothing of the slice.
    [Fact]
    public void Read_LimitOfZero_IsNoLimit()
    {
        const string head = Metric + ",detection_limit_kg_per_m3\n";

        ChlorideTableTests.OnlyError(Read(head + "C1,0,10,ND,0\n"), "DL1029");
        ChlorideTableTests.OnlyError(Read(head + "C1,0,10,<0,0.2\n"), "DL1029");
        Assert.False(Has(Read(head + "C1,0,10,3,0\n"), "DL1032"));
    }

    [Theory]
    [InlineData("ND,<0.2", 0.2)]
    [InlineData("ND,< 0.2", 0.2)]
    [InlineData("<0.1,0.2", 0.1)]
    public void Read_LimitInItsColumn_HoldsWhereTheCellGivesNone(string cells, double limit)
    {
        var slice = OnlySlice(Read($"{Metric},detection_limit_kg_per_m3\nC1,0,10,{cells}\n"));

        Assert.True(slice.IsNonDetect);
        Assert.Equal(limit, slice.Content.KilogramsPerCubicMetre, 12);
    }

    [Theory]
    [InlineData("3,many")]
    [InlineData("ND,many")]
    [InlineData("<many,0.2")]
    public void Read_LimitThatIsNoNumber_ErrorEvenWhereItIsNotNeeded(string cells) =>
        ChlorideTableTests.OnlyError(
            Read($"{Metric},detection_limit_kg_per_m3\nC1,0,10,{cells}\n"),
            "DL1014"
        );

    [Fact]
    public void Read_GeneralLimit_ConvertedWithTheMixOrAskedFor()
    {
        var options = new ChlorideTableOptions
        {
            ExposureAge = Age.FromYears(20),
            Mix = new ConcreteMix(2400, 400),
            DetectionLimit = new(
                100,
                Units.Of(Dimension.Chloride).Single(u => u.Name == "ppm"),
                ChlorideExtraction.NotStated
            ),
        };

        // 100 ppm of 2400 kg/m3.
        var slice = OnlySlice(Read(Metric + "\nC1,0,10,ND\n", options));
        Assert.Equal(0.24, slice.Content.KilogramsPerCubicMetre, 12);
        ChlorideTableTests.OnlyError(
            Read(Metric + "\nC1,0,10,ND\n", options with { Mix = default }),
            "DL1030"
        );
    }

    [Fact]
    public void Read_SliceNotTested_LeftOutWithAWarning()
    {
        var result = Read(Metric + "\nC1,0,10,3\nC1,10,20,not tested\nC1,20,30,N/A\n");

        OnlySlice(result);
        Assert.Equal(
            [3, 4],
            result.Problems.Where(p => p.Code == "DL1023").Select(p => p.Row ?? 0)
        );
    }

    [Theory]
    [InlineData("C1,10,10,3")]
    [InlineData("C1,20,10,3")]
    public void Read_SliceWithoutThickness_Error(string row) =>
        ChlorideTableTests.OnlyError(Read($"{Metric}\n{row}\n"), "DL1024");

    [Theory]
    [InlineData(",0,10,3", "core")]
    [InlineData("C1,,10,3", "top_mm")]
    [InlineData("C1,0,,3", "bottom_mm")]
    [InlineData("C1,0,10,", "chloride_kg_per_m3")]
    public void Read_EmptyCell_ErrorAtItsColumn(string row, string column)
    {
        var error = ChlorideTableTests.OnlyError(Read($"{Metric}\n{row}\n"), "DL1013");

        Assert.Equal((2, column, ""), (error.Row, error.Column, error.Value));
    }

    [Theory]
    [InlineData("top_mm,bottom_mm,chloride_kg_per_m3", "core")]
    [InlineData("core,top_mm,bottom_mm", "chloride")]
    [InlineData("core,bottom_mm,chloride_kg_per_m3", "top")]
    [InlineData("core,top_mm,chloride_kg_per_m3", "bottom")]
    public void Read_ColumnThatIsMissing_NamedOnce(string head, string column)
    {
        var row = string.Join(',', head.Split(',').Select(h => h == "core" ? "C1" : "5"));

        Assert.Equal(
            column,
            ChlorideTableTests.OnlyError(Read($"{head}\n{row}\n"), "DL1008").Column
        );
    }

    [Fact]
    public void Read_CentresOnly_NoThicknessAndANote()
    {
        var result = Read("core,depth_mm,chloride_kg_per_m3\nC1,5,3\n");

        var slice = OnlySlice(result);
        Assert.Equal((5.0, 5.0), (slice.Top.Millimetres, slice.Bottom.Millimetres));
        Assert.True(Has(result, "DL1028"));
        Assert.Equal("mm", result.DepthUnit?.Name);
    }

    [Theory]
    [InlineData("core,depth_mm,top_mm,chloride_kg_per_m3\nC1,5,0,3\n", "top_mm")]
    [InlineData("core,depth_mm,bottom_mm,chloride_kg_per_m3\nC1,5,10,3\n", "bottom_mm")]
    public void Read_CentresBesideOneEdge_GivenInTwoWays(string text, string other) =>
        Assert.Contains(
            other,
            ChlorideTableTests.OnlyError(Read(text), "DL1027").Text,
            StringComparison.Ordinal
        );

    [Fact]
    public void Read_TableWithoutRows_SaysSoAlone() =>
        ChlorideTableTests.OnlyError(Read(Metric + "\n"), "DL1037");

    // The unit is printed beside canonical values only where it is that of every row.
    [Theory]
    [InlineData("C1,0,10,3,kg/m3\nC1,10,20,2,kg/m3\n", "kg/m3")]
    [InlineData("C1,0,10,3,kg/m3\nC1,10,20,500,ppm\n", null)]
    [InlineData("C1,0,10,3,kg/m3\nC1,10,20,500,ppm\nC1,20,30,400,ppm\n", null)]
    [InlineData("C1,0,10,500,ppm\nC1,10,20,<50,ppm\n", "ppm")]
    public void Read_UnitOfTheContents_StatedWhereRowsAgree(string rows, string? unit) =>
        Assert.Equal(unit, Read("core,top_mm,bottom_mm,chloride,unit\n" + rows).ContentUnit?.Name);

    [Fact]
    public void Read_LimitOfAnotherUnitThanTheContents_NoCommonUnit()
    {
        var head = Metric + ",detection_limit_ppm\n";

        Assert.Null(Read(head + "C1,0,10,3,50\nC1,10,20,ND,50\n").ContentUnit);
        Assert.Equal("kg/m3", Read(head + "C1,0,10,3,50\nC1,10,20,2,50\n").ContentUnit?.Name);
    }

    [Theory]
    [InlineData("chloride_acid_soluble_kg_per_m3")]
    [InlineData("acid_soluble_chloride_kg_per_m3")]
    [InlineData("\"Acid-soluble chloride, kg/m3\"")]
    [InlineData("Chloride (acid-soluble) [kg/m3]")]
    public void Read_HeadWithExtractionAndUnit_BothUnderstood(string head)
    {
        var result = ChlorideTableTests.Usable(Read($"core,top_mm,bottom_mm,{head}\nC1,0,10,3\n"));

        Assert.Equal(ChlorideExtraction.AcidSoluble, result.Extraction);
        Assert.Equal("kg/m3", result.ContentUnit?.Name);
    }

    [Theory]
    [InlineData("chloride_acid_soluble", "", ChlorideExtraction.NotStated, "acid")]
    [InlineData("chloride_water_soluble", "", ChlorideExtraction.NotStated, "water")]
    [InlineData("chloride", "", ChlorideExtraction.WaterSoluble, "water")]
    [InlineData("acid_soluble_chloride", "", ChlorideExtraction.NotStated, "acid")]
    [InlineData("Water-soluble chloride", "", ChlorideExtraction.NotStated, "water")]
    [InlineData("Chloride (acid soluble)", "", ChlorideExtraction.NotStated, "acid")]
    [InlineData("chloride", "acid-soluble", ChlorideExtraction.NotStated, "acid")]
    [InlineData("chloride", "Total", ChlorideExtraction.NotStated, "acid")]
    [InlineData("chloride", "water soluble", ChlorideExtraction.NotStated, "water")]
    [InlineData("chloride", "", ChlorideExtraction.NotStated, "not")]
    [InlineData("chloride_acid_soluble", "acid", ChlorideExtraction.AcidSoluble, "acid")]
    [InlineData("chloride_acid_soluble", "", ChlorideExtraction.WaterSoluble, "DL1039")]
    [InlineData("chloride", "water", ChlorideExtraction.AcidSoluble, "DL1039")]
    [InlineData("chloride", "nitric", ChlorideExtraction.NotStated, "DL1014")]
    public void Read_Extraction_OneForTheTableOrAnError(
        string head,
        string cell,
        ChlorideExtraction stated,
        string expected
    )
    {
        var result = Read(
            $"core,top_mm,bottom_mm,{head},unit,extraction\nC1,0,10,3,kg/m3,{cell}\n",
            new() { ExposureAge = Age.FromYears(20), Extraction = stated }
        );

        if (expected.StartsWith("DL", StringComparison.Ordinal))
        {
            ChlorideTableTests.OnlyError(result, expected);
            return;
        }

        ChlorideTableTests.Usable(result);
        Assert.Equal(
            expected switch
            {
                "acid" => ChlorideExtraction.AcidSoluble,
                "water" => ChlorideExtraction.WaterSoluble,
                _ => ChlorideExtraction.NotStated,
            },
            result.Extraction
        );
    }

    // The message says the depths as the table writes them, and which row said them first.
    [Theory]
    [InlineData(
        "core,top_in,bottom_in,chloride_kg_per_m3\nC1,1/4,0.75,3\nC1,0.25,3/4,2\n",
        "0.25 to 0.75 in"
    )]
    [InlineData("core,depth_in,chloride_kg_per_m3\nC1,1/2,3\nC1,0.5,2\n", "at 0.5 in")]
    public void Read_SliceTwice_SaidInTheUnitOfTheTable(string text, string says)
    {
        var result = Read(text);
        var error = ChlorideTableTests.OnlyError(result, "DL1025");

        Assert.Contains(says, error.Text, StringComparison.Ordinal);
        Assert.Contains("row 2", error.Text, StringComparison.Ordinal);
        Assert.Equal("in", result.DepthUnit?.Name);
    }

    [Fact]
    public void Read_TwoExtractions_EachSaidWhereItStands()
    {
        string Text(ChlorideTableResult result) =>
            ChlorideTableTests.OnlyError(result, "DL1039").Text;

        Assert.Matches(
            "acid-soluble.*water-soluble",
            Text(
                Read(
                    "core,top_mm,bottom_mm,acid-soluble chloride (kg/m3)\nC1,0,10,3\n",
                    new()
                    {
                        ExposureAge = Age.FromYears(20),
                        Extraction = ChlorideExtraction.WaterSoluble,
                    }
                )
            )
        );
        Assert.Matches(
            "water-soluble.*acid-soluble",
            Text(Read(Metric + ",extraction\nC1,0,10,3,acid\nC1,10,20,2,water\n"))
        );
    }

    [Theory]
    [InlineData("age_d", "7305")]
    [InlineData("age_months", "240")]
    public void Read_AgeInAnotherUnit_Years(string head, string age) =>
        Assert.Equal(
            20,
            ChlorideTableTests
                .Usable(Read($"{Metric},{head}\nC1,0,10,3,{age}\n"))
                .Cores[0]
                .ExposureAge.Years,
            12
        );

    [Fact]
    public void Read_CoreOfWhichNothingWasTested_IsNoCore() =>
        Assert.Equal(
            "C1",
            Assert
                .Single(ChlorideTableTests.Usable(Read(Metric + "\nC1,0,10,3\nC2,0,10,NT\n")).Cores)
                .Core
        );
}
