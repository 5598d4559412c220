using System.Collections.Immutable;
using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Surveys;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

public class HalfCellTableTests
{
    private static ImmutableArray<HalfCellReading> Read(
        string text,
        out ImmutableArray<Diagnostic> problems,
        string? readings = null,
        ReferenceElectrode? electrode = null
    )
    {
        var list = new ProblemList("half-cell.csv");
        var table = HalfCellTable.Read(
            new DelimitedSource(Encoding.UTF8.GetBytes(text)),
            new TableContext { Readings = readings, Electrode = electrode },
            list
        );
        problems = list.ToImmutable();
        return table?.Rows ?? [];
    }

    private static void NoErrors(ImmutableArray<Diagnostic> problems) =>
        Assert.DoesNotContain(problems, p => p.Severity == Severity.Error);

    [Theory]
    [InlineData("# units: potential mV CSE\ny_ft\\x_ft,0,5,10\n2,-120,-210,\n6,NA,-350,-\n")]
    [InlineData("# units: potential = mV CSE\ny_ft / x_ft;0;5;10\n2;-120;-210;\n6;;-350;\n")]
    [InlineData(
        "Invented grid\nUnits: potential mV vs CSE\nx (ft)\\y (ft)\t2\t6\n0\t-120\t\n5\t-210\t-350\n10\t\t\n"
    )]
    [InlineData("# units: potential V CSE\ny_ft\\x_ft,0,5,10\n2,-0.12,-0.21,x\n6,,-0.35,\n")]
    public void Read_Grid_NodesWithMissingOnesLeftOut(string text)
    {
        var nodes = Read(text, out var problems);

        NoErrors(problems);
        Assert.Equal(
            [(0.0, 0.6096, -120.0), (1.524, 0.6096, -210.0), (1.524, 1.8288, -350.0)],
            nodes
                .Select(n =>
                    (Math.Round(n.X, 9), Math.Round(n.Y, 9), Math.Round(n.PotentialMvCse, 9))
                )
                .OrderBy(n => n.Item2)
                .ThenBy(n => n.Item1)
        );
        Assert.Contains(
            "3 of 6",
            Assert.Single(problems, p => p.Code == "DL1204").Text,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("y_ft\\x_ft,0,5\n2,-120,-210\n", "DL1206")]
    [InlineData("# units: potential mV\ny_ft\\x_ft,0,5\n2,-120,-210\n", "DL1206")]
    [InlineData("# units: potential mV SCE\ny_ft\\x_ft,0,5\n2,-120,-210\n", "DL1206")]
    [InlineData("# units: potential mV CSE\ny\\x,0,5\n2,-120,-210\n", "DL1206")]
    [InlineData("# units: potential mV CSE\nx_ft\\x_ft,0,5\n2,-120,-210\n", "DL1206")]
    [InlineData("# units: potential mV CSE\ny_ft\\x_ft,0,0\n2,-120,-210\n", "DL1207")]
    [InlineData("# units: potential mV CSE\ny_ft\\x_ft,0,5\n2,-120,-210\n2,-120,-210\n", "DL1207")]
    [InlineData("# units: potential mV CSE\ny_ft\\x_ft,0,5\n2,-120,bad\n", "DL1014")]
    [InlineData("# units: potential mV CSE\ny_ft\\x_ft,0,5\n2,-120,-210,-300\n", "DL1043")]
    public void Read_GridWithAFault_Error(string text, string code)
    {
        Read(text, out var problems);

        Assert.Contains(problems, p => p.Code == code && p.Severity == Severity.Error);
    }

    [Fact]
    public void Read_AllPositive_AskedAboutAndMendedOnlyOnTheUsersWord()
    {
        const string text = "x_ft,y_ft,potential_mv_cse\n0,0,210\n5,0,350\n10,0,120\n";
        Read(text, out var problems);
        Assert.Contains(problems, p => p is { Code: "DL1201", Severity: Severity.Error });

        Assert.Equal(
            [-210.0, -350, -120],
            Read(text, out problems, "sign-left-out").Select(n => n.PotentialMvCse)
        );
        NoErrors(problems);
        Assert.Equal(
            [210.0, 350, 120],
            Read(text, out problems, "as-written").Select(n => n.PotentialMvCse)
        );
        NoErrors(problems);
    }

    [Fact]
    public void Read_SignLeftOutSaidButSomeAreThere_Error()
    {
        Read(
            "x_ft,y_ft,potential_mv_cse\n0,0,210\n5,0,-350\n10,0,120\n",
            out var problems,
            "sign-left-out"
        );

        Assert.Contains(problems, p => p.Severity == Severity.Error);
    }

    [Fact]
    public void Read_VoltsUnderMillivolts_AskedAboutAndConvertedOnlyOnTheUsersWord()
    {
        const string text = "x_ft,y_ft,potential_mv_cse\n0,0,-0.21\n5,0,-0.35\n10,0,-0.12\n";
        Read(text, out var problems);
        Assert.Contains(problems, p => p is { Code: "DL1202", Severity: Severity.Error });

        Assert.Equal(
            [-210.0, -350, -120],
            Read(text, out problems, "volts").Select(n => Math.Round(n.PotentialMvCse, 9))
        );
        NoErrors(problems);
    }

    [Fact]
    public void Read_OtherElectrode_NeedsItsStatedPotential()
    {
        const string text = "x_ft,y_ft,potential_mv_sce\n0,0,-135\n5,0,-275\n";
        Read(text, out var problems);
        Assert.Contains(
            "SCE",
            Assert.Single(problems, p => p.Severity == Severity.Error).Text,
            StringComparison.Ordinal
        );

        Assert.Equal(
            [-210.0, -350],
            Read(text, out problems, null, new ReferenceElectrode("SCE", -75))
                .Select(n => n.PotentialMvCse)
        );
        NoErrors(problems);
    }

    [Fact]
    public void Read_NodeTwice_Error()
    {
        Read("x_ft,y_ft,potential_mv_cse\n0,0,-210\n5,0,-350\n0,0,-100\n", out var problems);

        Assert.Equal(4, Assert.Single(problems, p => p.Code == "DL1205").Row);
    }

    [Fact]
    public void Read_StationsAndOffsets_FromTheStatedOrigin()
    {
        var list = new ProblemList("half-cell.csv");
        var nodes = HalfCellTable
            .Read(
                new DelimitedSource(
                    Encoding.UTF8.GetBytes(
                        "station_ft,offset_ft,potential_mv_cse\n12+50,4,-210\n12+75.5,-4,-220\n"
                    )
                ),
                new TableContext { StartStationM = 1200 * 0.3048 },
                list
            )!
            .Rows;

        Assert.False(list.HasErrors);
        Assert.Equal(50 * 0.3048, nodes[0].X, 9);
        Assert.Equal(
            (75.5 * 0.3048, -4 * 0.3048),
            (Math.Round(nodes[1].X, 9), Math.Round(nodes[1].Y, 9))
        );
    }
}
