using System.Collections.Immutable;
using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Surveys;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

/// <summary>Limits, words and questions of the survey tables, each from both sides.</summary>
public class SurveyLimitTests
{
    private static (SurveyTable<T>? Table, ImmutableArray<Diagnostic> Problems) Read<T>(
        Func<ITableSource, TableContext, ProblemList, SurveyTable<T>?> reader,
        string text,
        TableContext? context = null
    )
    {
        var problems = new ProblemList("survey.csv");
        var table = reader(
            new DelimitedSource(Encoding.UTF8.GetBytes(text)),
            context ?? new(),
            problems
        );
        return (table, problems.ToImmutable());
    }

    private static (SurveyTable<HalfCellReading>? Table, ImmutableArray<Diagnostic> Problems) Nodes(
        string text,
        TableContext? context = null
    ) => Read<HalfCellReading>(HalfCellTable.Read, text, context);

    private static string[] Errors(ImmutableArray<Diagnostic> problems) =>
        [.. problems.Where(p => p.Severity == Severity.Error).Select(p => p.Code)];

    private static string List(params string[] potentials) =>
        "x_m,y_m,potential_mv_cse\n" + string.Concat(potentials.Select((p, i) => $"{i},1,{p}\n"));

    // 3 V of CSE is beyond any half-cell reading; +200 and −800 mV are unusual.
    [Theory]
    [InlineData("-800", null)]
    [InlineData("-800.1", "DL1203")]
    [InlineData("200", null)]
    [InlineData("200.1", "DL1203")]
    [InlineData("-3000", "DL1203")]
    [InlineData("-3000.1", "DL1018")]
    [InlineData("3000", "DL1203")]
    [InlineData("3000.1", "DL1018")]
    public void Read_PotentialAtALimit_TakenAskedAboutOrRefused(string potential, string? code)
    {
        var (table, problems) = Nodes(List("-210", potential, "-310"));

        Assert.Equal(code, problems.SingleOrDefault()?.Code);
        Assert.Equal(code == "DL1018" ? 2 : 3, table!.Rows.Length);
        if (code is not null)
        {
            Assert.Equal((3, "potential_mv_cse"), (problems[0].Row, problems[0].Column));
        }
    }

    // Two readings may well be positive or small; a survey of three is asked about.
    [Theory]
    [InlineData("", "210", "350")]
    [InlineData("DL1201", "210", "350", "120")]
    [InlineData("DL1201", "0", "350", "120")]
    [InlineData("", "-1", "350", "120")]
    [InlineData("DL1202", "0", "0", "0")]
    [InlineData("", "-0.21", "-0.35")]
    [InlineData("DL1202", "-0.21", "-0.35", "-1.99")]
    [InlineData("", "-0.21", "-0.35", "-2")]
    [InlineData("DL1201,DL1202", "0.21", "0.35", "0.12")]
    public void Read_SlipOfSignOrUnit_AskedAboutFromThreeReadings(
        string codes,
        params string[] potentials
    ) => Assert.Equal(codes, string.Join(',', Errors(Nodes(List(potentials)).Problems)));

    [Theory]
    [InlineData("volts-sign-left-out", -210)]
    [InlineData("volts", 210)]
    [InlineData("sign-left-out", -0.21)]
    [InlineData("as-written", 0.21)]
    public void Read_UsersAnswer_IsFollowed(string answer, double millivolts)
    {
        var (table, problems) = Nodes(List("0.21", "0.35", "0.12"), new() { Readings = answer });

        Assert.Empty(Errors(problems));
        Assert.Equal(millivolts, table!.Rows[0].PotentialMvCse, 9);
    }

    [Theory]
    [InlineData("volts-sign-left-out")]
    [InlineData("sign-left-out")]
    public void Read_SignLeftOutButOneIsThere_Refused(string answer)
    {
        var (_, problems) = Nodes(List("0.21", "-0.35"), new() { Readings = answer });

        Assert.Contains(
            "(-0.35)",
            Assert.Single(problems, p => p.Code == "DL1018").Text,
            StringComparison.Ordinal
        );
        Assert.Empty(Errors(Nodes(List("0", "0.35"), new() { Readings = answer }).Problems));
    }

    // Volts are no millivolts by mistake where the head says volts.
    [Fact]
    public void Read_VoltsUnderVolts_NotAskedAbout() =>
        Assert.Empty(Nodes("x_m,y_m,potential_v_cse\n0,0,-0.2\n1,0,-0.3\n2,0,-0.1\n").Problems);

    // The electrode's own potential counts before the sign's meaning: −135 mV against one at −75 mV of CSE is −210 mV.
    [Fact]
    public void Read_OtherElectrodeSignLeftOut_SignGivenBackBeforeConversion()
    {
        var (table, problems) = Nodes(
            "x_m,y_m,potential_mv_sce\n0,0,135\n1,0,275\n2,0,100\n",
            new() { Readings = "sign-left-out", Electrode = new("SCE", -75) }
        );

        Assert.Empty(Errors(problems));
        Assert.Equal([-210.0, -350, -175], table!.Rows.Select(n => n.PotentialMvCse));
    }

    [Fact]
    public void Read_NodesAMillimetreApart_AreTwo()
    {
        Assert.Empty(
            Errors(
                Nodes("x_m,y_m,potential_mv_cse\n1,0,-200\n1.001,0,-200\n1,0.001,-200\n").Problems
            )
        );
        var (table, problems) = Nodes("x_m,y_m,potential_mv_cse\n1,2,-200\n1.0004,2.0004,-300\n");
        Assert.Equal(["DL1205"], Errors(problems));
        Assert.Equal(-200, Assert.Single(table!.Rows).PotentialMvCse);
        Assert.Contains("row 2", problems[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_NodesWithoutAReading_CountedInEveryWord()
    {
        string[] words = ["", "-", "--", "NA", "n/a", "NR", "x", "no reading", "#N/A", "*"];
        var (table, problems) = Nodes(List([.. words, "-210"]));

        Assert.Equal((11, -210), (table!.Rows.Single().Row - 1, table.Rows[0].PotentialMvCse));
        Assert.Contains("10 of 11", Assert.Single(problems).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("x_m,y_m\n0,0\n", "DL1008", "potential")]
    [InlineData("potential_mv_cse\n-210\n", "DL1008", "x")]
    [InlineData("x_m,y_m,potential_mv_cse\n", "DL1037", null)]
    [InlineData("x_m,y_m,potential_mv_cse\n,,-210\n", "DL1013", "x_m")]
    [InlineData("x_m,y_m,potential_mv_cse\n,1,-210\n", "DL1013", "x_m")]
    [InlineData("x_m,y_m,potential_mv_cse\n1,,-210\n", "DL1013", "y_m")]
    [InlineData("x_m,y_m,potential_mv_cse\n1,1,low\n", "DL1014", "potential_mv_cse")]
    [InlineData("x_m,y_m,potential_mv_cse\n1,a,-210\n", "DL1014", "y_m")]
    [InlineData("x_m,y_m,potential_mv_cse\n1,a,NA\n", "DL1014", "y_m")]
    public void Read_HalfCellListWithAFault_OneErrorAtItsColumn(
        string text,
        string code,
        string? column
    )
    {
        var error = Assert.Single(Nodes(text).Problems, p => p.Severity == Severity.Error);

        Assert.Equal((code, column), (error.Code, error.Column));
    }

    [Theory]
    [InlineData("x_m,y_m,potential_mv_cse\n0,0,-210\n", false, true)]
    [InlineData("station_m,offset_m,potential_mv_cse\n0,0,-210\n", true, false)]
    [InlineData("# units: potential mV CSE\ny_m\\x_m,0\n0,-210\n", false, true)]
    [InlineData("# units: potential mV CSE\noffset_m\\station_m,0\n0,-210\n", true, false)]
    public void Read_HalfCell_SaysItsFrame(string text, bool stations, bool coordinates)
    {
        var table = Nodes(text).Table!;

        Assert.Equal((stations, coordinates), (table.UsesStations, table.UsesX));
    }

    // Whichever coordinate runs down, x or the station is along the deck; 1+020 of the origin at 1+000 is 20 m.
    [Theory]
    [InlineData("y_m\\x_m,20\n3,-210\n")]
    [InlineData("x_m\\y_m,3\n20,-210\n")]
    [InlineData("X (m) / Y (m),3\n20,-210\n")]
    [InlineData("y_m|x_m,20\n3,-210\n")]
    [InlineData("offset_m\\station_m,1+020\n3,-210\n", 1000.0)]
    [InlineData("station_m\\offset_m,3\n1+020,-210\n", 1000.0)]
    [InlineData("sta_m\\offset_m,3\n1020,-210\n", 1000.0)]
    [InlineData("sta_m\\offset_m,3\n10+20,-210\n", 1000.0)]
    [InlineData("sta_m\\offset_m,3\n1+020.0,-210\n", 1000.0)]
    public void Read_GridEitherWayRound_SamePlace(string grid, double? origin = null)
    {
        var (table, problems) = Nodes(
            "# units: potential mV CSE\n" + grid,
            new() { StartStationM = origin }
        );

        Assert.Empty(problems);
        var node = Assert.Single(table!.Rows);
        Assert.Equal((3, 20.0, 3.0, -210.0), (node.Row, node.X, node.Y, node.PotentialMvCse));
    }

    [Theory]
    [InlineData("y_ft\\x_ft,0,1 1/2\n2,-120,-210\n", 0.4572)]
    [InlineData("y_in\\x_in,0,18\n2,-120,-210\n", 0.4572)]
    [InlineData("y_mm\\x_mm,0,457.2\n2,-120,-210\n", 0.4572)]
    public void Read_GridInUnits_Metres(string grid, double x)
    {
        var (table, problems) = Nodes("# units: potential mV CSE\n" + grid);

        Assert.Empty(problems);
        Assert.Equal(x, table!.Rows[1].X, 12);
    }

    [Theory]
    [InlineData("y_m\\x_m,0,1 1/2\n2,-120,-210\n", "DL1014")]
    [InlineData("y_m\\x_m,0,20001\n2,-120,-210\n", "DL1014")]
    [InlineData("y_m\\x_m,0,1\nhere,-120,-210\n", "DL1014")]
    [InlineData("y_m\\x_m,0,1\n,-120,-210\n", "DL1014")]
    [InlineData("y_m\\x_m,0,1\n", "DL1037")]
    [InlineData("y_m\\x_m,0,1\n2,\"-120\"a,-210\n", "DL1011")]
    public void Read_GridWithoutAPlaceOrARow_Error(string grid, string code) =>
        Assert.Equal(
            [code],
            Errors(Nodes("# units: potential mV CSE\n" + grid).Problems).Distinct()
        );

    // A row may be shorter than the head: what lacks is missing, not shifted; cells right of the grid must be empty.
    [Fact]
    public void Read_GridWithShortRows_WhatLacksIsMissing()
    {
        var (table, problems) = Nodes(
            "# units: potential mV CSE\n\n# by invented hands\ny_m\\x_m,0,1,2\n0,-120\n# tea\n\n1,-130,-140,-150,\n"
        );

        Assert.Equal([-120.0, -130, -140, -150], table!.Rows.Select(r => r.PotentialMvCse));
        Assert.Contains("2 of 6", Assert.Single(problems).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("y_m\\x_m;0;0,5\n1;-120,5;-210\n", 0.5, -120.5)]
    [InlineData("y_m\\x_m;0;0.5\n1;-120.5;-210\n", 0.5, -120.5)]
    [InlineData("y_m\\x_m\t0\t0,5\n1\t-120,5\t-210\n", 0.5, -120.5)]
    public void Read_GridWithEitherMark_Understood(string grid, double x, double potential)
    {
        var (table, problems) = Nodes("# units: potential mV CSE\n" + grid);

        Assert.Empty(problems);
        Assert.Equal((potential, x), (table!.Rows[0].PotentialMvCse, table.Rows[1].X));
    }

    [Theory]
    [InlineData("x_m,y_m,cover_mm\n1,2,300\n", null)]
    [InlineData("x_m,y_m,cover_mm\n1,2,0\n", null)]
    [InlineData("x_m,y_m,cover_mm\n1,2,300.1\n", "DL1018")]
    [InlineData("x_m,y_m,cover_mm\n1,2,-0.1\n", "DL1018")]
    [InlineData("x_m,y_m,cover_mm\n1,2,\n", "DL1013")]
    [InlineData("x_m,y_m,cover_mm\n", "DL1037")]
    [InlineData("x_m,y_m\n1,2\n", "DL1008")]
    [InlineData("cover_mm\n50\n", null)]
    public void Read_CoverAtALimit_TakenOrRefused(string text, string? code)
    {
        var (_, problems) = Read<CoverReading>(CoverTable.Read, text);

        Assert.Equal(code, Errors(problems).SingleOrDefault());
    }

    [Theory]
    [InlineData("x_m,y_m,cover_mm\n1030,2,50\n", 1030.0, false, true)]
    [InlineData("station_m,offset_m,cover_mm\n1+030,2,50\n", 30.0, true, false)]
    [InlineData("cover_mm\n50\n", null, false, false)]
    public void Read_Cover_PlaceFromTheStatedOrigin(
        string text,
        double? x,
        bool stations,
        bool coordinates
    )
    {
        var (table, problems) = Read<CoverReading>(
            CoverTable.Read,
            text,
            new() { StartStationM = 1000 }
        );

        Assert.Empty(problems);
        var reading = Assert.Single(table!.Rows);
        Assert.Equal((2, x, 50.0), (reading.Row, reading.X, reading.Cover.Millimetres));
        Assert.Equal((stations, coordinates), (table.UsesStations, table.UsesX));
    }

    [Theory]
    [InlineData(
        SoundingFinding.Delaminated,
        "delaminated",
        "Delamination",
        "delam",
        "hollow",
        "unsound",
        "drummy"
    )]
    [InlineData(SoundingFinding.Spalled, "spalled", "Spall")]
    [InlineData(SoundingFinding.Patched, "patched", "patch", "Repair", "repaired")]
    public void Read_Finding_WordsInUse(SoundingFinding finding, params string[] words)
    {
        foreach (var word in words)
        {
            var (table, problems) = Read<SoundingArea>(
                SoundingTable.Read,
                $"finding,area_m2\n{word},40\n"
            );

            Assert.Empty(problems);
            Assert.Equal(finding, Assert.Single(table!.Rows).Finding);
        }
    }

    [Theory]
    [InlineData("finding,area_m2\nhollow,1000000\n", null)]
    [InlineData("finding,area_m2\nhollow,1000001\n", "DL1018")]
    [InlineData("finding,area_m2\nhollow,wide\n", "DL1014")]
    [InlineData("finding,x_min_m,x_max_m,y_min_m,y_max_m\nhollow,5,5,0,1\n", "DL1303")]
    [InlineData("finding,x_min_m,x_max_m,y_min_m,y_max_m\nhollow,5,6,1,1\n", "DL1303")]
    [InlineData("finding,x_min_m,x_max_m,y_min_m,y_max_m\nhollow,a,6,0,1\n", "DL1014")]
    [InlineData("finding,x_min_m,x_max_m,y_min_m,y_max_m\nhollow,,6,0,1\n", "DL1013")]
    [InlineData("finding,corners_m\nhollow,0 0; 20000 0; 0 1\n", null)]
    [InlineData("finding,corners_m\nhollow,0 0; 20001 0; 0 1\n", "DL1014")]
    [InlineData("finding,corners_m\nhollow,0 0; 1 0; 0 -20001\n", "DL1014")]
    [InlineData("finding,corners_m\nhollow,0 0; 1 a; 0 1\n", "DL1014")]
    [InlineData("finding,corners_m\nhollow,0 0; 1; 0 1\n", "DL1014")]
    public void Read_SoundingAtALimit_TakenOrRefused(string text, string? code)
    {
        var (table, problems) = Read<SoundingArea>(SoundingTable.Read, text);

        Assert.Equal(code, Errors(problems).SingleOrDefault());
        Assert.Equal(code is null ? 1 : 0, table!.Rows.Length);
    }

    [Theory]
    [InlineData("x_min_m,x_max_m,y_min_m,y_max_m", "1020,1010,-2,2", 1010, false, true)]
    [InlineData("corners_ft", "(3300 0) | (3310 0) | (3310 10)", 1005.84, false, true)]
    [InlineData(
        "station_from_m,station_to_m,offset_from_m,offset_to_m",
        "1+010,1+020,-2,2",
        10,
        true,
        false
    )]
    public void Read_Sounding_LeastPlaceAlongAndFrame(
        string heads,
        string cells,
        double least,
        bool stations,
        bool coordinates
    )
    {
        var (table, problems) = Read<SoundingArea>(
            SoundingTable.Read,
            $"finding,{heads}\nhollow,{cells}\n",
            new() { StartStationM = 1000 }
        );

        Assert.Empty(problems);
        var area = Assert.Single(table!.Rows);
        Assert.Equal(2, area.Row);
        Assert.Equal(least, area.Corners.Min(c => c.X), 9);
        Assert.Equal((stations, coordinates), (table.UsesStations, table.UsesX));
    }

    [Fact]
    public void Read_MoreThanTwoThousandCorners_Refused()
    {
        string Polygon(int corners) =>
            "finding,corners_m\nhollow,"
            + string.Join(
                ';',
                Enumerable
                    .Range(0, corners)
                    .Select(i =>
                        FormattableString.Invariant(
                            $"{100 * Math.Cos(2 * Math.PI * i / corners):F4} {100 * Math.Sin(2 * Math.PI * i / corners):F4}"
                        )
                    )
            )
            + "\n";

        Assert.Empty(Errors(Read<SoundingArea>(SoundingTable.Read, Polygon(2000)).Problems));
        Assert.Equal(
            ["DL1014"],
            Errors(Read<SoundingArea>(SoundingTable.Read, Polygon(2001)).Problems)
        );
    }

    // 40 m2 and 40 m2 that share 20 m2 of ground.
    [Fact]
    public void Read_AreasThatOverlap_NoteOfHowMuch() =>
        Assert.Contains(
            "20",
            Assert
                .Single(
                    Read<SoundingArea>(
                        SoundingTable.Read,
                        "finding,x_min_m,x_max_m,y_min_m,y_max_m\nhollow,0,10,0,4\nhollow,5,15,0,4\n"
                    ).Problems
                )
                .Text,
            StringComparison.Ordinal
        );
}
