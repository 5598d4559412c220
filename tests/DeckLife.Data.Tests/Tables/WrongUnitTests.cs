using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

/// <summary>A wrong unit can't pass: for each numeric column, dropping or doubling its unit is an error.</summary>
public class WrongUnitTests
{
    private const string Chlorides =
        "core,top_in,bottom_in,chloride_lb_per_yd3,detection_limit_ppm,sd_lb_per_yd3,age_yr,x_ft,y_ft\nC1,0.25,0.75,9.1,50,0.3,20,100,12\nC1,0.75,1.25,6.4,50,0.3,20,100,12\n";
    private const string Centres = "core,depth_in,chloride_lb_per_yd3\nC1,0.5,9.1\nC1,1,6.4\n";
    private const string Stations =
        "core,top_in,bottom_in,chloride_lb_per_yd3,station_ft,offset_ft\nC1,0.25,0.75,9.1,12+50,8\n";
    private const string Cover = "x_ft,y_ft,cover_in\n10,4,2.1\n20,4,1.9\n";
    private const string CoverStations =
        "station_ft,offset_ft,cover_in\n12+10,4,2.1\n12+20,4,1.9\n";
    private const string HalfCell = "x_ft,y_ft,potential_mv_cse\n10,4,-210\n20,4,-350\n";
    private const string Size = "finding,area_ft2\ndelaminated,40\n";
    private const string Limits =
        "finding,x_min_ft,x_max_ft,y_min_ft,y_max_ft\ndelaminated,10,20,4,8\n";
    private const string StationLimits =
        "finding,station_from_ft,station_to_ft,offset_from_ft,offset_to_ft\ndelaminated,12+10,12+20,4,8\n";
    private const string Corners = "finding,corners_ft\ndelaminated,0 0; 10 0; 10 5\n";

    public static TheoryData<string, string, string> Columns()
    {
        var data = new TheoryData<string, string, string>();
        foreach (
            var (kind, table) in new[]
            {
                ("chlorides", Chlorides),
                ("chlorides", Centres),
                ("chlorides", Stations),
                ("cover", Cover),
                ("cover", CoverStations),
                ("half-cell", HalfCell),
                ("sounding", Size),
                ("sounding", Limits),
                ("sounding", StationLimits),
                ("sounding", Corners),
            }
        )
        {
            foreach (
                var head in table
                    .Split('\n')[0]
                    .Split(',')
                    .Where(h => h is not ("core" or "finding"))
            )
            {
                data.Add(kind, table, head);
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Columns))]
    public void Read_ColumnAsItIs_NoError(string kind, string table, string head)
    {
        Assert.NotEmpty(head);
        Assert.DoesNotContain(Problems(kind, table), p => p.Severity == Severity.Error);
    }

    [Theory]
    [MemberData(nameof(Columns))]
    public void Read_UnitDroppedFromHead_Error(string kind, string table, string head) =>
        Assert.Contains(
            Problems(kind, table.Replace(head, Bare(head), StringComparison.Ordinal)),
            p => p is { Severity: Severity.Error, Code: "DL1015" or "DL1017" }
        );

    [Theory]
    [MemberData(nameof(Columns))]
    public void Read_UnitInHeadAndBesideTheNumber_Error(string kind, string table, string head)
    {
        var lines = table.Split('\n');
        var at = Array.IndexOf(lines[0].Split(','), head);
        var cells = lines[1].Split(',');
        cells[at] += " " + UnitOf(head);
        lines[1] = string.Join(',', cells);

        Assert.Contains(
            Problems(kind, string.Join('\n', lines)),
            p => p.Severity == Severity.Error && p.Row == 2 && p.Code is "DL1016" or "DL1014"
        );
    }

    [Theory]
    [MemberData(nameof(Columns))]
    public void Read_UnitInHeadAndInAUnitsRow_Error(string kind, string table, string head)
    {
        var lines = table.Split('\n');
        var heads = lines[0].Split(',');
        var units = string.Join(',', heads.Select(h => h == head ? UnitOf(h) : ""));

        Assert.Contains(
            Problems(kind, string.Join('\n', [lines[0], units, .. lines[1..]])),
            p => p is { Severity: Severity.Error, Code: "DL1016" }
        );
    }

    [Theory]
    [MemberData(nameof(Columns))]
    public void Read_ColumnAgainInAnotherUnit_Error(string kind, string table, string head)
    {
        var other =
            Bare(head)
            + (
                head.Contains("chloride", StringComparison.Ordinal)
                || head.StartsWith("sd", StringComparison.Ordinal)
                || head.StartsWith("detection", StringComparison.Ordinal)
                    ? "_kg_per_m3"
                : head.StartsWith("potential", StringComparison.Ordinal) ? "_v_cse"
                : head.StartsWith("age", StringComparison.Ordinal) ? "_d"
                : head.StartsWith("area", StringComparison.Ordinal) ? "_m2"
                : "_mm"
            );
        var lines = table.TrimEnd('\n').Split('\n');

        Assert.Contains(
            Problems(
                kind,
                string.Join('\n', lines.Select((l, i) => l + "," + (i == 0 ? other : "1")))
            ),
            p => p is { Severity: Severity.Error, Code: "DL1007" }
        );
    }

    [Theory]
    [MemberData(nameof(Columns))]
    public void Read_UnitOfAnotherQuantity_Error(string kind, string table, string head)
    {
        var wrong = Bare(head) + (head.StartsWith("age", StringComparison.Ordinal) ? "_mm" : "_yr");

        Assert.Contains(
            Problems(kind, table.Replace(head, wrong, StringComparison.Ordinal)),
            p => p is { Severity: Severity.Error, Code: "DL1017" }
        );
    }

    [Theory]
    [InlineData("core,top,bottom,chloride\nC1,0.25 in,0.75 in,9.1 lb/cy\n")]
    [InlineData("core,top,bottom,chloride\n,in,in,lb/cy\nC1,0.25,0.75,9.1\n")]
    [InlineData("# units: depth in; chloride lb/cy\ncore,top,bottom,chloride\nC1,0.25,0.75,9.1\n")]
    [InlineData(
        "Results of the laboratory\nUnits: depth = in, chloride = lb/cy\n\ncore,top,bottom,chloride\nC1,0.25,0.75,9.1\n"
    )]
    [InlineData("core,top,bottom,depth_unit,chloride,unit\nC1,0.25,0.75,in,9.1,lb/cy\n")]
    [InlineData("Core No.,Top (in),Bottom (in),Chloride (lb/yd³)\nC1,0.25,0.75,9.1\n")]
    [InlineData("Core,\"Depth from, in\",\"Depth to, in\",\"Chloride, lb/yd3\"\nC1,1/4,3/4,9.1\n")]
    [InlineData("core,top [in],bottom [in],acid-soluble chloride [pcy]\nC1,0.25,0.75,9.1\n")]
    [InlineData("core\ttop_in\tbottom_in\tchloride_lb_per_yd3\t\t\nC1\t0.25\t0.75\t9.1\t\t\n")]
    [InlineData("\n\ncore,top_mm,bottom_mm,chloride_lb_per_yd3\n\nC1,6.35,19.05,9.1\n\n")]
    [InlineData(
        "core,top_in,bottom_in,chloride_lb_per_yd3,remarks\n# from the second visit\nC1,1/4\",3/4\",9.1,\"near joint, wet\"\n",
        true
    )]
    public void Read_UnitOnceAnywhere_Understood(string text, bool doubled = false)
    {
        var result = ChlorideTableTests.Read(text);
        if (doubled)
        {
            // An inch sign beside the number in a column of inches is a unit stated twice.
            Assert.All(
                result.Problems.Where(p => p.Severity == Severity.Error),
                p => Assert.Equal("DL1016", p.Code)
            );
            return;
        }

        var slice = Assert.Single(Assert.Single(ChlorideTableTests.Usable(result).Cores).Slices);
        Assert.Equal(6.35, slice.Top.Millimetres, 9);
        Assert.Equal(9.1, slice.Content.PoundsPerCubicYard, 9);
    }

    private static string Bare(string head) =>
        head.StartsWith("detection_limit", StringComparison.Ordinal) ? "detection_limit"
        : head.EndsWith("_ft", StringComparison.Ordinal) ? head[..^3]
        : head[..head.IndexOf('_', StringComparison.Ordinal)];

    private static string UnitOf(string head) =>
        head[(Bare(head).Length + 1)..]
            .Replace("_per_", "/", StringComparison.Ordinal)
            .Replace('_', ' ');

    internal static IReadOnlyList<Diagnostic> Problems(string kind, string text)
    {
        var problems = new ProblemList(kind + ".csv");
        var source = new DelimitedSource(Encoding.UTF8.GetBytes(text));
        var context = new TableContext();
        switch (kind)
        {
            case "chlorides":
                ChlorideTable.Read(
                    source,
                    new ChlorideTableOptions
                    {
                        ExposureAge = Age.FromYears(20),
                        Mix = new ConcreteMix(2322.7, 390.4),
                    },
                    problems
                );
                break;
            case "cover":
                CoverTable.Read(source, context, problems);
                break;
            case "half-cell":
                HalfCellTable.Read(source, context, problems);
                break;
            default:
                SoundingTable.Read(source, context, problems);
                break;
        }

        return problems.ToImmutable();
    }
}
