using System.Collections.Immutable;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Data.Tests.Tables;

/// <summary>
/// Real profiles. Source: Florida Department of Transportation, final report, state job 99700-3515-020, WPI 0510805, contract BA502
/// (31 December 2001), Tables 4 and 5: chloride profiles of 13 marine substructures.
/// </summary>
public class OutsideProfileTests(ITestOutputHelper log)
{
    private static readonly ImmutableDictionary<string, string> Columns = ImmutableDictionary<
        string,
        string
    >
        .Empty.Add("profile_id", "core")
        .Add("condition", "on_crack");

    private ImmutableArray<CoreProfile>? Profiles(out ImmutableArray<Diagnostic> problems)
    {
        problems = [];
        if (
            Environment.GetEnvironmentVariable("DECKLIFE_OUTSIDE_DATA")
            is not { Length: > 0 } folder
        )
        {
            log.WriteLine("skipped: outside data absent");
            return null;
        }

        var result = ChlorideTable.Read(
            Path.Combine(
                folder,
                "data",
                "marine-profiles",
                "marine_substructure_13_bridges_profiles.csv"
            ),
            new ChlorideTableOptions { ColumnNames = Columns }
        );
        problems = result.Problems;
        return ChlorideTableTests.Usable(result).Cores;
    }

    [Fact]
    public void Read_All148MarineProfiles_Load()
    {
        if (Profiles(out var problems) is not { } cores)
        {
            return;
        }

        Assert.Equal(148, cores.Length);
        Assert.Equal(901, cores.Sum(c => c.Slices.Length));
        Assert.All(cores.SelectMany(c => c.Slices), s => Assert.True(s.IsCentreOnly));
        Assert.Contains(problems, p => p.Code == "DL1028");

        // Table 5: profile P003 at 0.125 in, 42.80 lb/yd3, 11 yr, on a crack; P002 sound.
        var third = cores.Single(c => c.Core == "P003");
        Assert.Equal((11.0, true), (third.ExposureAge.Years, third.OnCrack));
        Assert.Equal(
            (3.175, 42.8),
            (
                Math.Round(third.Slices[0].CentreMm, 9),
                Math.Round(third.Slices[0].Content.PoundsPerCubicYard, 9)
            )
        );
        Assert.False(cores.Single(c => c.Core == "P002").OnCrack);
    }

    [Fact]
    public void Read_OneStructureWithCoresOfTwoAges_KeepsBoth()
    {
        if (Profiles(out _) is not { } cores)
        {
            return;
        }

        // The structure BCB was cored at 14 and at 38 years.
        Assert.Contains(cores, c => c.ExposureAge.Years == 38);
        Assert.Contains(cores, c => c.ExposureAge.Years == 14);
    }

    // The figures of one core on a crack as Table 5 and its footnote both give them: typed here, so that the check stands alone.
    [Theory]
    [InlineData(
        "P003,11,0.125,42.80\nP003,11,0.375,35.20\nP003,11,0.625,32.76\nP003,11,0.875,28.22\n543 at 0.3125,11,0.125,42.80\n543 at 0.3125,11,0.375,35.20\n543 at 0.3125,11,0.625,32.76\n543 at 0.3125,11,0.875,28.22\n",
        "at the same depths"
    )]
    [InlineData(
        "P003,11,0.125,42.80\nP003,11,0.375,35.20\nP003,11,0.625,32.76\nP003,11,0.875,28.22\nX,11,0.11,42.8\nX,11,0.38,35.2\nX,11,0.75,32.76\nX,11,1.5,28.22\n",
        "at other depths"
    )]
    public void Read_OneCoreInTwoTables_NoticedAndKept(string rows, string says)
    {
        var result = ChlorideTableTests.Usable(
            ChlorideTableTests.Read("core,age_yr,depth_in,chloride_lb_per_yd3\n" + rows)
        );

        Assert.Equal(2, result.Cores.Length);
        var warning = Assert.Single(result.Problems, p => p.Code == "DL1035");
        Assert.Equal(Severity.Warning, warning.Severity);
        Assert.Contains(says, warning.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_CoresThatDifferInOneValue_NotTakenForOne()
    {
        var result = ChlorideTableTests.Usable(
            ChlorideTableTests.Read(
                "core,depth_in,chloride_lb_per_yd3\nA,1,5\nA,2,3\nA,3,1\nB,1,5\nB,2,3\nB,3,1.1\n"
            )
        );

        Assert.DoesNotContain(result.Problems, p => p.Code == "DL1035");
    }
}
