using System.Diagnostics;
using System.Globalization;
using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Quantities;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Data.Tests.Tables;

/// <summary>
/// Work and memory grow in proportion to the rows. A small table here; tests/studies/read-large-tables.sh reads a million rows
/// (DECKLIFE_LARGE_ROWS sets the number).
/// </summary>
public class LargeTableTests(ITestOutputHelper log)
{
    private static byte[] Table(int rows)
    {
        var text = new StringBuilder("core,top_in,bottom_in,chloride_lb_per_yd3\n");
        for (var i = 0; i < rows; i++)
        {
            var slice = i % 6;
            text.Append(
                CultureInfo.InvariantCulture,
                $"C{i / 6},{0.25 + (0.5 * slice)},{0.75 + (0.5 * slice)},{12.0 / (1 + slice) + (i % 97 * 0.01):F3}\n"
            );
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static ChlorideTableResult Read(byte[] bytes) =>
        ChlorideTable.Read(
            "large.csv",
            bytes,
            new ChlorideTableOptions { ExposureAge = Age.FromYears(20) }
        );

    [Fact]
    public void Read_FourTimesTheRows_FourTimesTheAllocation()
    {
        var rows = int.TryParse(
            Environment.GetEnvironmentVariable("DECKLIFE_LARGE_ROWS"),
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var set
        )
            ? set
            : 40_000;
        var (quarter, whole) = (Table(rows / 4), Table(rows));
        Read(Table(1000));
        var (small, smallBytes, smallTime) = Measure(quarter);
        var (large, largeBytes, largeTime) = Measure(whole);
        log.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{rows / 4} rows: {smallBytes >> 20} MB allocated, {smallTime.TotalSeconds:F2} s; {rows} rows: {largeBytes >> 20} MB, {largeTime.TotalSeconds:F2} s; {largeBytes / rows} bytes a row; peak working set {Process.GetCurrentProcess().PeakWorkingSet64 >> 20} MB"
            )
        );

        Assert.Equal(rows, large.Cores.Sum(c => c.Slices.Length));
        Assert.Equal(rows / 4, small.Cores.Sum(c => c.Slices.Length));

        // Proportional but for the fixed buffers and the doubling of lists.
        Assert.InRange((double)largeBytes / smallBytes, 2, 6);
    }

    private static (ChlorideTableResult Result, long Bytes, TimeSpan Time) Measure(byte[] table)
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        var watch = Stopwatch.StartNew();
        var result = Read(table);
        return (
            ChlorideTableTests.Usable(result),
            GC.GetAllocatedBytesForCurrentThread() - before,
            watch.Elapsed
        );
    }

    [Fact]
    public void Read_ManyFaultyRows_ListedUpToANumberAndTheRestCounted()
    {
        var text = new StringBuilder("core,top_in,bottom_in,chloride_lb_per_yd3\n");
        for (var i = 0; i < 5000; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"C{i},0.25,0.75,bad\n");
        }

        var result = Read(Encoding.UTF8.GetBytes(text.ToString()));

        Assert.Equal(100, result.Problems.Count(p => p.Code == "DL1014"));
        Assert.Contains(
            "4900 more",
            Assert.Single(result.Problems, p => p.Code == "DL1022").Text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Read_UnclosedQuoteInALargeTable_ErrorNotASwallowedRest()
    {
        var text = Encoding
            .UTF8.GetString(Table(60_000))
            .Replace("C5,0.25", "\"C5,0.25", StringComparison.Ordinal);

        var result = Read(Encoding.UTF8.GetBytes(text));

        Assert.Empty(result.Cores);
        Assert.Contains(result.Problems, p => p.Code == "DL1011");
    }
}
