using System.Collections.Immutable;
using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Surveys;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

public class SoundingTableTests
{
    private static ImmutableArray<SoundingArea> Read(
        string text,
        out ImmutableArray<Diagnostic> problems
    )
    {
        var list = new ProblemList("sounding.csv");
        var table = SoundingTable.Read(
            new DelimitedSource(Encoding.UTF8.GetBytes(text)),
            new TableContext(),
            list
        );
        problems = list.ToImmutable();
        return table?.Rows ?? [];
    }

    [Theory]
    [InlineData("finding,area_m2\nhollow,40\n", 40)]
    [InlineData("finding,x_min_m,x_max_m,y_min_m,y_max_m\ndelamination,10,20,4,8\n", 40)]
    [InlineData("finding,x_min_m,x_max_m,y_min_m,y_max_m\nDelaminated,20,10,8,4\n", 40)]
    [InlineData("finding,corners_m\ndelam,10 4; 20 4; 20 8; 10 8\n", 40)]
    [InlineData("finding,corners_m\nunsound,0 0; 10 0; 10 8\n", 40)]
    [InlineData("finding;corners_m\nunsound;\"0 0; 10,5 0; 10,5 8\"\n", 42)]
    [InlineData(
        "finding,station_from_m,station_to_m,offset_from_m,offset_to_m\ndelaminated,1+010,1+020,-2,2\n",
        40
    )]
    [InlineData("finding,x_min_m,x_max_m,y_min_m,y_max_m\nhollow,0,10,0,4\nhollow,5,10,0,4\n", 40)]
    [InlineData("finding,x_min_m,x_max_m,y_min_m,y_max_m\nhollow,0,6,0,4\nspalled,5,10,0,4\n", 40)]
    public void Read_EveryKindOfShape_GroundCountedOnce(string text, double squareMetres)
    {
        var areas = Read(text, out var problems);

        Assert.DoesNotContain(problems, p => p.Severity == Severity.Error);
        Assert.Equal(squareMetres, areas.Sum(a => a.AreaM2), 9);
    }

    [Theory]
    [InlineData("finding,area_m2\nrust,40\n", "DL1306")]
    [InlineData("finding,area_m2\nhollow,\n", "DL1301")]
    [InlineData("finding,area_m2\nhollow,0\n", "DL1018")]
    [InlineData("finding,area_m2\nhollow,-4\n", "DL1018")]
    [InlineData("finding,corners_m\nhollow,0 0; 10 0\n", "DL1303")]
    [InlineData("finding,corners_m\nhollow,0 0; 10 8; 10 0; 0 8\n", "DL1303")]
    [InlineData("finding,corners_m\nhollow,0 0; 5 0; 10 0\n", "DL1303")]
    [InlineData("finding,corners_m\nhollow,0 0; 5 0 3; 10 0\n", "DL1014")]
    [InlineData("finding,area_m2,corners_m\nhollow,40,0 0; 10 0; 10 8\n", "DL1302")]
    [InlineData("finding,x_min_m,x_max_m,y_min_m\nhollow,0,10,0\n", "DL1008")]
    [InlineData("finding,x_min_m,x_max_m,y_min_m,y_max_m\nhollow,0,10,0,\n", "DL1013")]
    [InlineData("area_m2\n40\n", "DL1008")]
    public void Read_AreaWithAFault_Error(string text, string code)
    {
        Assert.Empty(Read(text, out var problems));
        Assert.Contains(problems, p => p.Code == code && p.Severity == Severity.Error);
    }
}
