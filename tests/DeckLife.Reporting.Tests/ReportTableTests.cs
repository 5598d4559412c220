using System.Collections.Immutable;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Reporting.Tests;

public class ReportTableTests
{
    private static ReportTable One(string text) =>
        new(
            "caption",
            [new("Core"), new("D", true, UnitScale.Diffusion)],
            [
                [ReportCell.Words(text), ReportCell.Quantity(UnitScale.Diffusion, 1.0 / 3)],
            ]
        );

    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("+cmd", "'+cmd")]
    [InlineData("-2+3", "'-2+3")]
    [InlineData("@SUM(A1)", "'@SUM(A1)")]
    [InlineData("\t=1", "'\t=1")]
    [InlineData("a,b", "\"a,b\"")]
    [InlineData("a\"b", "\"a\"\"b\"")]
    [InlineData(" =1+1", "' =1+1")]
    [InlineData("C-03", "C-03")]
    [InlineData("", "")]
    public void ToCsv_Text_CannotActAsAFormula(string text, string expected)
    {
        var line = One(text).ToCsv().Split("\r\n")[1];
        Assert.Equal(expected + ",0.3333333333333333", line);
    }

    [Property(MaxTest = 300)]
    public void ToCsv_AnyText_FieldNeverStartsAFormula(NonNull<string> text)
    {
        var written = One(text.Get).ToCsv()["Core,D [mm²/yr]\r\n".Length..];
        // As a spreadsheet reads it: the quotes around a field are not part of it, a doubled one within is one.
        var field = written.StartsWith('"')
            ? written[1..].Replace("\"\"", "\"", StringComparison.Ordinal)
            : written;
        Assert.True(
            field.Length == 0 || !"=+-@\t\r|%".Contains(field[0], StringComparison.Ordinal)
        );
    }

    [Fact]
    public void ToText_Columns_Aligned()
    {
        var lines = One("C-03").ToText().TrimEnd('\n').Split('\n');
        Assert.Equal(["caption", "Core  D [mm²/yr]", "C-03       0.333"], lines);
    }

    [Fact]
    public void ToHtml_Quantity_InBothSystems()
    {
        var html = One("C-03").ToHtml().Markup;
        // (1/3) / 645.16 = 0.000516668.
        Assert.Contains(
            "<span class=\"u-si\">0.333</span><span class=\"u-us\">0.000517</span>",
            html,
            StringComparison.Ordinal
        );
        Assert.Contains("<span class=\"u-us\">in²/yr</span>", html, StringComparison.Ordinal);
    }

    [Fact]
    public void ToCsv_Share_HeadSaysFraction()
    {
        var table = new ReportTable(
            "caption",
            [new("Strategy"), new("Median", true, IsShare: true)],
            [
                [ReportCell.Words("a"), ReportCell.Percent(0.125)],
            ]
        );
        Assert.Equal("Strategy,Median [fraction]\r\na,0.125\r\n", table.ToCsv());
    }

    [Property(MaxTest = 300)]
    public void CsvLink_AnyText_DecodesToTheTablesCsv(NonNull<string> text)
    {
        // A lone half of a surrogate pair has no UTF-8 form; it becomes the replacement sign.
        var table = One(
            System.Text.Encoding.UTF8.GetString(System.Text.Encoding.UTF8.GetBytes(text.Get))
        );
        var html = CsvLink.To(table, text.Get).Markup;
        var link = System.Text.RegularExpressions.Regex.Match(
            html,
            "href=\"data:text/csv;charset=utf-8,([^\"<>&' ]*)\""
        );
        Assert.True(link.Success, html);
        Assert.Equal("\uFEFF" + table.ToCsv(), Uri.UnescapeDataString(link.Groups[1].Value));
        Assert.Matches("download=\"[a-z0-9-]+\\.csv\"", html);
    }
}
