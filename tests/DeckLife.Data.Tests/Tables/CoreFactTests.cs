using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

/// <summary>What a table says of a core as a whole: age, dates, place, crack, replicates, and whether another core is the same.</summary>
public class CoreFactTests
{
    private const string Metric = "core,top_mm,bottom_mm,chloride_kg_per_m3";

    private static ChlorideTableResult Read(string text, ChlorideTableOptions? options = null) =>
        ChlorideTable.Read(
            "chlorides.csv",
            Encoding.UTF8.GetBytes(text),
            options ?? new() { ExposureAge = Age.FromYears(20) }
        );

    // 365.25 days a year: 2000-01-01 to 2010-01-01 is 3653 days.
    [Fact]
    public void Read_OnlyTheDateOfSampling_AgeFromTheFirstSaltOfTheDeck()
    {
        var result = ChlorideTableTests.Usable(
            Read(
                Metric + ",sampled\nC1,0,10,3,2010-01-01\n",
                new() { FirstSalt = new DateOnly(2000, 1, 1) }
            )
        );

        Assert.Equal(3653 / 365.25, result.Cores[0].ExposureAge.Years, 12);
    }

    [Theory]
    [InlineData("1999-12-31")]
    [InlineData("2000-01-01")]
    public void Read_SampledBeforeItsFirstSalt_Impossible(string sampled) =>
        Assert.Contains(
            "2000-01-01",
            ChlorideTableTests
                .OnlyError(
                    Read($"{Metric},sampled,first_salt\nC1,0,10,3,{sampled},2000-01-01\n"),
                    "DL1018"
                )
                .Text,
            StringComparison.Ordinal
        );

    // A year's difference is that of a rounded age; more is a contradiction. 2000-01-01 to 2010-01-01 is 10.0014 yr.
    [Theory]
    [InlineData("9.1", true)]
    [InlineData("10.9", true)]
    [InlineData("8.9", false)]
    [InlineData("11.1", false)]
    public void Read_AgeBesideDates_TheStatedOneUnlessTheyContradict(string age, bool agrees)
    {
        var result = Read(
            $"{Metric},age_yr,sampled,first_salt\nC1,0,10,3,{age},2010-01-01,2000-01-01\n"
        );

        if (!agrees)
        {
            ChlorideTableTests.OnlyError(result, "DL1034");
            return;
        }

        Assert.Equal(
            double.Parse(age, System.Globalization.CultureInfo.InvariantCulture),
            ChlorideTableTests.Usable(result).Cores[0].ExposureAge.Years,
            12
        );
    }

    [Theory]
    [InlineData("2010-07-04")]
    [InlineData("4-Jul-2010")]
    [InlineData("4 Jul 2010")]
    [InlineData("4 July 2010")]
    [InlineData("\"Jul 4, 2010\"")]
    [InlineData("\"July 4, 2010\"")]
    [InlineData("2010-07-04T00:00:00")]
    [InlineData("2010-07-04 00:00:00")]
    public void Read_DateWithOneReading_ThatDay(string sampled) =>
        Assert.Equal(
            new DateOnly(2010, 7, 4).DayNumber - new DateOnly(2000, 7, 4).DayNumber,
            365.25
                * ChlorideTableTests
                    .Usable(Read($"{Metric},sampled,first_salt\nC1,0,10,3,{sampled},2000-07-04\n"))
                    .Cores[0]
                    .ExposureAge.Years,
            9
        );

    [Theory]
    [InlineData("03/12/2019", "day and month may be exchanged")]
    [InlineData("3.12.19", "two digits")]
    [InlineData("43901", "serial number")]
    [InlineData("1849-12-31", "not one of a bridge")]
    [InlineData("2201-01-01", "not one of a bridge")]
    [InlineData("last summer", "not a date")]
    [InlineData("1234567", "not a date")]
    public void Read_DateThatIsNone_ErrorSaysWhy(string sampled, string why)
    {
        var error = ChlorideTableTests.OnlyError(
            Read($"{Metric},sampled\nC1,0,10,3,{sampled}\n"),
            "DL1020"
        );

        Assert.Equal("sampled", error.Column);
        Assert.Contains(why, error.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1850-01-01", "1851-01-01")]
    [InlineData("2199-12-31", "2200-12-31")]
    public void Read_YearAtALimit_Taken(string first, string sampled) =>
        Assert.Equal(
            1,
            ChlorideTableTests
                .Usable(Read($"{Metric},sampled,first_salt\nC1,0,10,3,{sampled},{first}\n"))
                .Cores[0]
                .ExposureAge.Years,
            0.01
        );

    [Theory]
    [InlineData("age_yr", "20", "21")]
    [InlineData("sampled", "2010-01-01", "2010-01-02")]
    [InlineData("first_salt", "1990-01-01", "1990-01-02")]
    [InlineData("on_crack", "yes", "no")]
    public void Read_TwoStatementsOfOneCore_ContradictionNamesBothRows(
        string column,
        string first,
        string second
    )
    {
        string Rows(string other) =>
            $"{Metric},{column}\nC1,0,10,3,{first}\nC1,10,20,2,{other}\nC2,0,10,3,{second}\n";

        Assert.Equal(2, ChlorideTableTests.Usable(Read(Rows(first))).Cores.Length);
        Assert.Equal(2, ChlorideTableTests.Usable(Read(Rows(""))).Cores.Length);
        var error = ChlorideTableTests.OnlyError(Read(Rows(second)), "DL1034");
        Assert.Equal((3, column), (error.Row, error.Column));
    }

    [Theory]
    [InlineData("1,2", "1,3", "y_m")]
    [InlineData("1,2", "3,2", "x_m")]
    public void Read_TwoPlacesOfOneCore_Contradiction(string first, string second, string column) =>
        Assert.Equal(
            column,
            ChlorideTableTests
                .OnlyError(
                    Read($"{Metric},x_m,y_m\nC1,0,10,3,{first}\nC1,10,20,2,{second}\n"),
                    "DL1034"
                )
                .Column
        );

    [Theory]
    [InlineData("x_ft,y_ft", "100,-12", 30.48, -3.6576)]
    [InlineData("station_ft,offset_ft", "12+50.5,8", 381.1524, 2.4384)]
    [InlineData("station_m,offset_m", "1+050.5,8", 1050.5, 8)]
    [InlineData("station_m,offset_m", "1+50,8", 150, 8)]
    [InlineData("station_m,offset_m", "1050.5,8", 1050.5, 8)]
    public void Read_Place_InMetres(string head, string cells, double x, double y)
    {
        var core = ChlorideTableTests.Usable(Read($"{Metric},{head}\nC1,0,10,3,{cells}\n")).Cores[
            0
        ];

        Assert.Equal((x, y), (Math.Round(core.X ?? 0, 9), Math.Round(core.Y ?? 0, 9)));
    }

    [Theory]
    [InlineData("x_m,y_m", "5,", "DL1013", "y_m")]
    [InlineData("x_m,y_m", ",5", "DL1013", "x_m")]
    [InlineData("x_m", "5", "DL1042", "x_m")]
    [InlineData("offset_m", "5", "DL1042", "offset_m")]
    [InlineData("x_m,y_m,station_m,offset_m", "5,5,5,5", "DL1007", "station_m")]
    [InlineData("station,offset_m", "1+050,5", "DL1015", "station")]
    public void Read_HalfAPlaceOrTwo_Error(string head, string cells, string code, string column) =>
        Assert.Equal(
            column,
            ChlorideTableTests.OnlyError(Read($"{Metric},{head}\nC1,0,10,3,{cells}\n"), code).Column
        );

    [Fact]
    public void Read_NoPlaceInTheRow_CoreWithoutOne()
    {
        var core = ChlorideTableTests.Usable(Read(Metric + ",x_m,y_m\nC1,0,10,3,,\n")).Cores[0];

        Assert.Null(core.X);
        Assert.Null(core.Y);
    }

    [Theory]
    [InlineData(true, "yes", "Y", "TRUE", "1", "x", "cracked", "on crack")]
    [InlineData(false, "no", "N", "false", "0", "sound", "uncracked", "not cracked", "")]
    public void Read_OnCrack_WordsInUse(bool expected, params string[] words)
    {
        foreach (var word in words)
        {
            Assert.Equal(
                expected,
                ChlorideTableTests
                    .Usable(Read($"{Metric},on_crack\nC1,0,10,3,{word}\n"))
                    .Cores[0]
                    .OnCrack
            );
        }
    }

    // (2 × 3 + 1 × 6) / 3 = 4: rows that are means of several count as many; their spread is not that of rows.
    [Fact]
    public void Read_ReplicatesThatAreMeans_WeightedByTheirNumber()
    {
        var slice = Assert.Single(
            ChlorideTableTests
                .Usable(
                    Read(Metric + ",replicate,n,sd_kg_per_m3\nC1,0,10,3,a,2,0.5\nC1,0,10,6,b,1,\n")
                )
                .Cores[0]
                .Slices
        );

        Assert.Equal(
            (4.0, 3, 0.5, 2),
            (
                slice.Content.KilogramsPerCubicMetre,
                slice.Replicates,
                slice.StandardDeviation,
                slice.Row
            )
        );
    }

    // Equal determinations have no spread of their own: a stated one stands, else none.
    [Theory]
    [InlineData("0.5", 0.5)]
    [InlineData("", null)]
    public void Read_EqualReplicates_StatedSpreadOrNone(string sd, double? expected) =>
        Assert.Equal(
            expected,
            Assert
                .Single(
                    ChlorideTableTests
                        .Usable(
                            Read(
                                $"{Metric},replicate,sd_kg_per_m3\nC1,0,10,3,a,{sd}\nC1,0,10,3,b,{sd}\n"
                            )
                        )
                        .Cores[0]
                        .Slices
                )
                .StandardDeviation
        );

    [Theory]
    [InlineData("a", "a")]
    [InlineData("a", "A")]
    [InlineData("a", "")]
    [InlineData("", "b")]
    public void Read_ReplicatesThatAreNotTold_SliceTwice(string first, string second) =>
        Assert.Equal(
            3,
            ChlorideTableTests
                .OnlyError(
                    Read($"{Metric},replicate\nC1,0,10,3,{first}\nC1,0,10,4,{second}\n"),
                    "DL1025"
                )
                .Row
        );

    // Half a millimetre is rounding of inches; slices that share their top only are not replicates.
    [Theory]
    [InlineData("0,10", "9.5,20", false)]
    [InlineData("0,10", "9.4,20", true)]
    [InlineData("0,10", "10,20", false)]
    [InlineData("0,10", "0,20", true)]
    [InlineData("0,20", "5,10", true)]
    public void Read_Overlap_WarnedOfBeyondRounding(string first, string second, bool warned)
    {
        var result = ChlorideTableTests.Usable(Read($"{Metric}\nC1,{first},3\nC1,{second},2\n"));

        Assert.Equal(2, result.Cores[0].Slices.Length);
        Assert.Equal(warned, result.Problems.Any(p => p is { Code: "DL1026", Row: 3 }));
    }

    private static string Slices(string core, params string[] contents) =>
        string.Concat(contents.Select((c, i) => $"{core},{10 * i},{(10 * i) + 10},{c}\n"));

    [Fact]
    public void Read_SameContentsUnderAnotherName_AskedAbout()
    {
        bool Alike(string rows) => Read(Metric + "\n" + rows).Problems.Any(p => p.Code == "DL1035");

        Assert.True(Alike(Slices("C1", "3", "2", "1") + Slices("C2", "3", "2", "1")));
        Assert.False(Alike(Slices("C1", "3", "2", "1") + Slices("C2", "3", "2", "1.1")));
        Assert.False(Alike(Slices("C1", "3", "2", "1") + Slices("C2", "3", "2", "<1")));
        // Two contents may well agree by chance.
        Assert.False(Alike(Slices("C1", "3", "2", "2") + Slices("C2", "3", "2", "2")));
    }

    [Theory]
    [InlineData(0.2, "at the same depths")]
    [InlineData(5, "at other depths")]
    public void Read_SameContents_SaysWhetherDepthsAgree(double shift, string says)
    {
        var moved = string.Concat(
            new[] { 3, 2, 1 }.Select(
                (c, i) =>
                    FormattableString.Invariant(
                        $"C2,{(10 * i) + shift},{(10 * i) + 10 + shift},{c}\n"
                    )
            )
        );
        var problem = Assert.Single(
            Read(Metric + "\n" + Slices("C1", "3", "2", "1") + moved).Problems,
            p => p.Code == "DL1035"
        );

        Assert.Equal((5, "C2"), (problem.Row, problem.Value));
        Assert.Contains(says, problem.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("C-1", "C 1", true)]
    [InlineData("c1", "C1", true)]
    [InlineData("C1", "C2", false)]
    [InlineData("C1.1", "C11", false)]
    public void Read_NamesThatDifferByMarks_AskedAbout(string first, string second, bool asked) =>
        Assert.Equal(
            asked,
            Read(Metric + "\n" + Slices(first, "3", "2", "1") + Slices(second, "5", "4", "2"))
                .Problems.Any(p => p.Code == "DL1036" && p.Value == second)
        );

    [Fact]
    public void Read_Cores_InTheOrderOfTheFileWithTheirRows()
    {
        var cores = ChlorideTableTests
            .Usable(Read(Metric + "\nZ,0,10,3\nA,0,10,4\nZ,10,20,2\n"))
            .Cores;

        Assert.Equal(["Z", "A"], cores.Select(c => c.Core));
        Assert.Equal([2, 4], cores[0].Slices.Select(s => s.Row));
    }

    [Fact]
    public void Read_NoAgeAnywhere_SaysWhatToGiveUnlessItWasSaid()
    {
        const string text = Metric + "\nC1,0,10,3\n";

        Assert.Contains(
            "firstSalt",
            ChlorideTableTests
                .OnlyError(Read(text, new() { AgeHint = "write firstSalt" }), "DL1033")
                .Text,
            StringComparison.Ordinal
        );
        Assert.Empty(Read(text, new() { AgeIsReported = true }).Problems);
    }
}
