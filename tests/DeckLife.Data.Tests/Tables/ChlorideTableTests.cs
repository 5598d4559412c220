using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Data.Tests.Tables;

/// <summary>Inputs that break tools of this kind; for each kind of fault one known input and two more.</summary>
public class ChlorideTableTests
{
    private const string Head = "core,top_in,bottom_in,chloride_lb_per_yd3\n";

    private static readonly ConcreteMix Mix = new(
        3915 * UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard,
        658 * UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard
    );

    internal static ChlorideTableResult Read(
        string text,
        bool mix = true,
        string name = "chlorides.csv"
    ) => Read(Encoding.UTF8.GetBytes(text), mix, name);

    internal static ChlorideTableResult Read(
        byte[] bytes,
        bool mix = true,
        string name = "chlorides.csv"
    ) =>
        ChlorideTable.Read(
            name,
            bytes,
            new ChlorideTableOptions { ExposureAge = Age.FromYears(20), Mix = mix ? Mix : default }
        );

    internal static ChlorideTableResult Usable(ChlorideTableResult result)
    {
        Assert.True(
            result.IsUsable,
            string.Join(
                '\n',
                result
                    .Problems.Where(p => p.Severity == Severity.Error)
                    .Select(p => $"{p.Row} {p.Column}: {p.Text}")
            )
        );
        Assert.NotEmpty(result.Cores);
        return result;
    }

    internal static Diagnostic OnlyError(ChlorideTableResult result, string code)
    {
        Assert.Empty(result.Cores);
        var error = Assert.Single(result.Problems, p => p.Severity == Severity.Error);
        Assert.Equal(code, error.Code);
        return error;
    }

    private static double[] Pounds(ChlorideTableResult result) =>
        [
            .. result
                .Cores.SelectMany(c => c.Slices)
                .Select(s => Math.Round(s.Content.PoundsPerCubicYard, 9)),
        ];

    // A04
    [Theory]
    [InlineData(
        "core,top_mm,bottom_mm,chloride_kg_per_m3\nC1,6,13,3.10\nC1,13,19,2.31\nC1,64,76,0.0\n",
        3
    )]
    [InlineData("core,top_mm,bottom_mm,chloride_kg_per_m3\nC1,0,10,0\nC1,10,20,1\n", 2)]
    [InlineData("Core;Top (mm);Bottom (mm);Chloride (kg/m³)\nC1;0;10;2,5\nC1;10;20;0,0\n", 2)]
    public void Read_ContentOfExactlyZero_KeptAndAskedAbout(string text, int slices)
    {
        var result = Usable(Read(text));

        Assert.Equal(slices, result.Cores[0].Slices.Length);
        Assert.Contains(
            result.Cores[0].Slices,
            s => s.Content.KilogramsPerCubicMetre == 0 && !s.IsNonDetect
        );
        Assert.Single(result.Problems, p => p.Code == "DL1032");
    }

    // A05
    [Theory]
    [InlineData(
        "core,top_mm,bottom_mm,chloride_kg_per_m3\nC1,6,13,3.1\nC1,13,19,2.3\nC1,19,25,1.6\n",
        3
    )]
    [InlineData("core,top_mm,bottom_mm,chloride_kg_per_m3\nC1,6,13,3.1\nC1,13,19,2.3\n", 2)]
    [InlineData("core,top_mm,bottom_mm,chloride_kg_per_m3\nC1,6,13,3.1", 1)]
    public void Read_FewSlices_LoadsForTheFitToJudge(string text, int slices) =>
        Assert.Equal(slices, Usable(Read(text)).Cores[0].Slices.Length);

    // A06
    [Fact]
    public void Read_DecimalCommaWithSemicolons_UnderstoodNeverTimesHundred()
    {
        var result = Usable(
            Read(
                "core;top_in;bottom_in;chloride_percent_of_concrete\nC1;0,25;0,75;0,31\nC1;0,75;1,25;0,22\nC1;1,25;1,75;0,15\n"
            )
        );

        Assert.Equal(0.15 / 100 * 3915, result.Cores[0].Slices[2].Content.PoundsPerCubicYard, 9);
        Assert.Equal(1.25, result.Cores[0].Slices[2].Top.Inches, 12);
    }

    [Theory]
    [InlineData("core\ttop_in\tbottom_in\tchloride_lb_per_yd3\nC1\t0,25\t0,75\t6,1\n", 6.1)]
    [InlineData("core,top_in,bottom_in,chloride_lb_per_yd3\nC1,\"0,25\",\"0,75\",\"6,1\"\n", 6.1)]
    [InlineData("core;top_in;bottom_in;chloride_lb_per_yd3\nC1;0,25;0,75;1,234\n", 1.234)]
    [InlineData("core;top_mm;bottom_mm;chloride_ppm\nC1;0,5;10,5;\"1.234,5\"\n", 1234.5e-6 * 3915)]
    [InlineData("core,top_mm,bottom_mm,chloride_ppm\nC1,0.5,10.5,\"1,234\"\n", 1234e-6 * 3915)]
    [InlineData("core,top_mm,bottom_mm,chloride_ppm\nC1,0.5,10.5,\"1,234.5\"\n", 1234.5e-6 * 3915)]
    [InlineData("core,top_mm,bottom_mm,chloride_ppm\nC1,0.5,10.5,1\u00A0234\n", 1234e-6 * 3915)]
    [InlineData("core,top_mm,bottom_mm,chloride_ppm\nC1,0.5,10.5,1\u202F234\n", 1234e-6 * 3915)]
    public void Read_MarksThatAreCertain_Understood(string text, double pounds) =>
        Assert.Equal(Math.Round(pounds, 9), Pounds(Usable(Read(text)))[0], 1e-8);

    [Theory]
    [InlineData("core;top_mm;bottom_mm;chloride_ppm\nC1;5;10;1,234\n", "1,234")]
    [InlineData("core,top_mm,bottom_mm,chloride_ppm\nC1,5,10,\"1,234\"\n", "1,234")]
    [InlineData("core;top_mm;bottom_mm;chloride_ppm\nC1;0,5;10;1.234\n", "1.234")]
    public void Read_MarkThatMayBeEither_ErrorAtTheCell(string text, string value)
    {
        var error = OnlyError(Read(text), "DL1014");

        Assert.Equal((2, "chloride_ppm", value), (error.Row, error.Column, error.Value));
    }

    [Fact]
    public void Read_UnquotedDecimalCommasBetweenCommas_ErrorOfTheRow() =>
        Assert.Contains(
            "Decimal commas?",
            OnlyError(Read(Head + "C1,0,25,0,75,6,1\n"), "DL1012").Text,
            StringComparison.Ordinal
        );

    // A07
    public static TheoryData<string> Encodings =>
        new("utf-8", "utf-8-bom", "utf-16le", "utf-16be", "utf-16le-no-mark", "cr", "crlf");

    [Theory]
    [MemberData(nameof(Encodings))]
    public void Read_EveryEncodingAndLineEnd_Same(string encoding)
    {
        const string text = Head + "C1,0.25,0.75,9.1\nC1,0.75,1.25,6.4\nC1,1.25,1.75,4.1\n";
        byte[] bytes = encoding switch
        {
            "utf-8-bom" => [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(text)],
            "utf-16le" => [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(text)],
            "utf-16be" => [0xFE, 0xFF, .. Encoding.BigEndianUnicode.GetBytes(text)],
            "utf-16le-no-mark" => Encoding.Unicode.GetBytes(text),
            "cr" => Encoding.UTF8.GetBytes(text.Replace('\n', '\r')),
            "crlf" => Encoding.UTF8.GetBytes(text.Replace("\n", "\r\n", StringComparison.Ordinal)),
            _ => Encoding.UTF8.GetBytes(text),
        };

        var result = Usable(Read(bytes));

        Assert.Equal([9.1, 6.4, 4.1], Pounds(result));
        Assert.Equal([2, 3, 4], result.Cores[0].Slices.Select(s => s.Row));
    }

    [Fact]
    public void Read_Windows1252_ReadWithAWarning()
    {
        var bytes = Encoding.Latin1.GetBytes(
            "core,top_in,bottom_in,chloride_lb_per_yd3\nPfeiler Süd,\xBC,1\xBD,9.1\n"
        );

        var result = Usable(Read(bytes));

        Assert.Equal("Pfeiler Süd", result.Cores[0].Core);
        Assert.Equal(1.5, result.Cores[0].Slices[0].Bottom.Inches, 12);
        Assert.Single(result.Problems, p => p.Code == "DL1005");
    }

    // A08
    [Theory]
    [InlineData("ND<0.20")]
    [InlineData("<0.20")]
    [InlineData("< 0.20")]
    [InlineData("ND (<0.2)")]
    [InlineData("ND(0.2)")]
    [InlineData("nd < .2")]
    [InlineData("BDL (0.20)")]
    [InlineData("BDL<0.2")]
    [InlineData("≤0.2")]
    [InlineData("not detected (<0.2)")]
    [InlineData("Not detected < 0.2")]
    [InlineData("below detection limit (0.2)")]
    [InlineData("less than 0.2")]
    [InlineData("0.2U")]
    [InlineData("0.20 U")]
    [InlineData("N.D. <0.2")]
    public void Read_NonDetectSpelling_CensoredAtItsLimit(string cell)
    {
        var result = Usable(Read(Head + $"C1,0.25,0.75,9.1\nC1,0.75,1.25,{cell}\n"));

        var slice = result.Cores[0].Slices[1];
        Assert.True(slice.IsNonDetect);
        Assert.Equal(0.2, slice.Content.PoundsPerCubicYard, 12);
    }

    [Theory]
    [InlineData("ND")]
    [InlineData("BDL")]
    [InlineData("n.d.")]
    [InlineData("<LOD")]
    [InlineData("< MDL")]
    [InlineData("not detected")]
    [InlineData("none detected")]
    [InlineData("below detection")]
    public void Read_NonDetectWithoutLimit_NeedsTheLimitColumn(string cell)
    {
        OnlyError(Read(Head + $"C1,0.25,0.75,9.1\nC1,0.75,1.25,{cell}\n"), "DL1029");
        var result = Usable(
            Read(
                "core,top_in,bottom_in,chloride_lb_per_yd3,detection_limit_ppm\n"
                    + $"C1,0.25,0.75,9.1,50\nC1,0.75,1.25,{cell},50\n"
            )
        );

        Assert.True(result.Cores[0].Slices[1].IsNonDetect);
        Assert.Equal(50e-6 * 3915, result.Cores[0].Slices[1].Content.PoundsPerCubicYard, 9);
    }

    // A09
    [Theory]
    [InlineData("2-Jan", "a date")]
    [InlineData("45659", "2025-01-02")]
    [InlineData("1/2/2025", "a date")]
    [InlineData("Jan-02", "a date")]
    [InlineData("2025-01-02", "a date")]
    public void Read_SpreadsheetDateForADepth_ErrorNamesCellAndCause(string cell, string says)
    {
        var error = OnlyError(Read(Head + $"C1,{cell},0.75,9.1\nC1,0.75,1.25,5.2\n"), "DL1019");

        Assert.Equal((2, "top_in", cell), (error.Row, error.Column, error.Value));
        Assert.Contains(says, error.Text, StringComparison.Ordinal);
        Assert.Contains("1/2 or 2-1", error.Text, StringComparison.Ordinal);
    }

    // A10
    [Fact]
    public void Read_UnitInEachRow_ConvertedAndBarePercentRefused()
    {
        const string head = "core,top_in,bottom_in,chloride,unit\n";
        const string good =
            "C1,0.25,0.75,1.2,lb/cy\nC1,0.75,1.25,0.05,% of concrete\nC1,1.25,1.75,500,ppm\nC1,1.75,2.25,0.6,kg/m3\n";

        Assert.Equal(
            [1.2, 1.9575, 1.9575, 1.011332961],
            Pounds(Usable(Read(head + good))).Select(p => Math.Round(p, 9))
        );
        var error = OnlyError(Read(head + good + "C1,2.25,2.75,0.4,%\n"), "DL1017");
        Assert.Equal((6, "unit", "%"), (error.Row, error.Column, error.Value));
        Assert.Contains("% of binder", error.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("% of binder", 0.4, 0.4 / 100 * 658)]
    [InlineData("% by mass of binder", 0.4, 0.4 / 100 * 658)]
    [InlineData("pcy", 1.2, 1.2)]
    [InlineData("lb/cu yd", 1.2, 1.2)]
    [InlineData("LB/CY", 1.2, 1.2)]
    [InlineData("lbs/yd³", 1.2, 1.2)]
    [InlineData("lb per yd3", 1.2, 1.2)]
    [InlineData("% by weight of concrete", 0.1, 3.915)]
    [InlineData("mg/kg", 1000, 3.915)]
    public void Read_UnitSpelling_Known(string unit, double value, double pounds) =>
        Assert.Equal(
            Math.Round(pounds, 8),
            Pounds(
                Usable(
                    Read(
                        FormattableString.Invariant(
                            $"core,top_in,bottom_in,chloride,unit\nC1,0.25,0.75,{value},{unit}\n"
                        )
                    )
                )
            )[0],
            1e-8
        );

    [Theory]
    [InlineData("% of cement")]
    [InlineData("lb")]
    [InlineData("% NaCl")]
    [InlineData("")]
    public void Read_UnitThatLeavesAQuestion_Refused(string unit) =>
        Assert.Empty(Read($"core,top_in,bottom_in,chloride,unit\nC1,0.25,0.75,1.2,{unit}\n").Cores);

    [Fact]
    public void Read_MassBasisWithoutDensity_ErrorSaysWhatIsMissing()
    {
        var text =
            "core,top_in,bottom_in,chloride_percent_of_concrete\nC1,0.25,0.75,0.31\nC1,0.75,1.25,0.2\n";
        var error = OnlyError(Read(text, mix: false), "DL1030");
        Assert.Contains("--concrete-density", error.Text, StringComparison.Ordinal);

        text = text.Replace("concrete", "binder", StringComparison.Ordinal);
        error = OnlyError(Read(text, mix: false), "DL1030");
        Assert.Contains("--binder-content", error.Text, StringComparison.Ordinal);
    }

    // A16
    [Theory]
    [InlineData(
        "C1,0,0.25,4.0\nC1,0.25,0.75,8.8\nC1,0.75,1.25,6.1\nC1,2.25,2.75,1.2\nC1,2.75,3.25,1.9\n",
        5
    )]
    [InlineData("C1,0,0.25,1.0\nC1,0.25,0.75,2\nC1,0.75,1.25,3\n", 3)]
    [InlineData("C1,2.75,3.25,1.9\nC1,0,0.25,4.0\nC1,0.25,0.75,8.8\n", 3)]
    public void Read_ProfileThatDoesNotFall_AllSlicesKeptInOrder(string rows, int slices)
    {
        var core = Assert.Single(Usable(Read(Head + rows)).Cores);

        Assert.Equal(slices, core.Slices.Length);
        Assert.Equal(core.Slices.OrderBy(s => s.Top), core.Slices);
    }

    // A17
    [Theory]
    [InlineData(
        "core,age_yr,top_in,bottom_in,chloride_lb_per_yd3\nC1,38,0.25,0.75,11.2\nC1,38,0.75,1.25,8.1\nW1,14,0.25,0.75,7.9\n",
        38,
        14
    )]
    [InlineData(
        "core,age_yr,top_in,bottom_in,chloride_lb_per_yd3\nC1,38,0.25,0.75,11.2\nW1,,0.25,0.75,7.9\n",
        38,
        20
    )]
    [InlineData(
        "core,sampled,first_salt,top_in,bottom_in,chloride_lb_per_yd3\nC1,2020-07-01,1982-07-01,0.25,0.75,11.2\nW1,2020-07-01,2006-07-01,0.25,0.75,7.9\n",
        38,
        14
    )]
    [InlineData(
        "core,Age (years),top_in,bottom_in,chloride_lb_per_yd3\nC1,38,0.25,0.75,11.2\nC1,,0.75,1.25,11\nW1,14,0.25,0.75,7.9\n",
        38,
        14
    )]
    public void Read_TwoAges_EachCoreItsOwn(string text, double first, double second)
    {
        var cores = Usable(Read(text)).Cores;

        Assert.Equal(first, cores[0].ExposureAge.Years, 0.01);
        Assert.Equal(second, cores[1].ExposureAge.Years, 0.01);
    }

    [Fact]
    public void Read_OneCoreTwoAges_Contradiction() =>
        OnlyError(
            Read(
                "core,age_yr,top_in,bottom_in,chloride_lb_per_yd3\nC1,38,0.25,0.75,11.2\nC1,14,0.75,1.25,8\n"
            ),
            "DL1034"
        );

    [Theory]
    [InlineData("03/12/2019")]
    [InlineData("12.3.19")]
    [InlineData("43901")]
    [InlineData("2019")]
    public void Read_DateWithTwoReadings_Error(string date) =>
        OnlyError(
            Read(
                $"core,sampled,first_salt,top_in,bottom_in,chloride_lb_per_yd3\nC1,{date},1990-01-01,0.25,0.75,11.2\n"
            ),
            "DL1020"
        );

    [Fact]
    public void Read_CoresNamedWithANumberSign_AreDataNotComments()
    {
        var result = Usable(
            Read(Head + "# second visit, 3 cores\n#1,0.25,0.75,9.1\n#2,0.25,0.75,5\n")
        );

        Assert.Equal(["#1", "#2"], result.Cores.Select(c => c.Core));
    }

    [Fact]
    public void Read_RowCommentedOut_LeftOutWithAWarning()
    {
        var result = Usable(Read(Head + "C1,0.25,0.75,9.1\n# C1,0.75,1.25,5\n"));

        Assert.Single(result.Cores[0].Slices);
        Assert.Equal(3, Assert.Single(result.Problems, p => p.Code == "DL1046").Row);
    }

    [Fact]
    public void Read_TwoTablesUnderOneAnother_ErrorNotALostTable() =>
        Assert.Contains(
            Read(
                Head
                    + "C1,0.25,0.75,9.1\ncore,age_yr,top_in,bottom_in,chloride_lb_per_yd3\nC2,20,0.25,0.75,9.1\n"
            ).Problems,
            p => p is { Code: "DL1045", Row: 2 }
        );

    [Fact]
    public void Read_Replicates_MeanWithNumberAndSpread()
    {
        var result = Usable(
            Read(
                "core,top_in,bottom_in,chloride_kg_per_m3,replicate\nC1,0.25,0.75,3,1\nC1,0.25,0.75,4,2\nC1,0.25,0.75,5,3\n"
                    + "C1,0.75,1.25,1,1\nC1,0.75,1.25,<0.5,2\n"
            )
        );

        // Mean 4 and standard deviation 1 of 3, 4, 5; a non-detect is not averaged with a number.
        var slices = result.Cores[0].Slices;
        Assert.Equal(
            (4.0, 3, 1.0),
            (
                slices[0].Content.KilogramsPerCubicMetre,
                slices[0].Replicates,
                slices[0].StandardDeviation
            )
        );
        Assert.Equal([false, true], slices.Skip(1).Select(s => s.IsNonDetect));
        OnlyError(Read(Head + "C1,0.25,0.75,9.1\nC1,0.25,0.75,9.1\n"), "DL1025");
    }

    [Theory]
    [InlineData("0")]
    [InlineData("2.5")]
    [InlineData("many")]
    public void Read_NumberOfDeterminationsThatIsNone_Error(string n) =>
        OnlyError(
            Read($"core,top_in,bottom_in,chloride_lb_per_yd3,n\nC1,0.25,0.75,9.1,{n}\n"),
            "DL1044"
        );
}
