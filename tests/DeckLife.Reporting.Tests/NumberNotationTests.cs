using DeckLife.Reporting.Notation;
using Xunit;

namespace DeckLife.Reporting.Tests;

public class NumberNotationTests
{
    [Theory]
    [InlineData(0, 3, "0")]
    [InlineData(1234.5, 3, "1230")]
    [InlineData(12345.6, 3, "12,300")]
    [InlineData(9.996, 3, "10.0")]
    [InlineData(0.00123456, 3, "0.00123")]
    [InlineData(-0.5, 2, "-0.50")]
    [InlineData(999.6, 3, "1000")]
    [InlineData(1.5e-7, 3, "1.5e-7")]
    [InlineData(double.NaN, 3, "not available")]
    [InlineData(double.PositiveInfinity, 3, "not available")]
    public void Significant_Number_AsPeopleWriteIt(double value, int digits, string expected) =>
        Assert.Equal(expected, NumberNotation.Significant(value, digits));

    [Theory]
    [InlineData(0, "0 %")]
    [InlineData(0.0001, "< 0.1 %")]
    [InlineData(0.034, "3.4 %")]
    [InlineData(0.09949, "9.9 %")]
    [InlineData(0.0996, "10 %")]
    [InlineData(1, "100 %")]
    public void Percent_Fraction_RoundedForReading(double fraction, string expected) =>
        Assert.Equal(expected, NumberNotation.Percent(fraction));

    [Theory]
    [InlineData(1_236_000, "USD 1.24 million")]
    [InlineData(999_600, "USD 1.00 million")]
    [InlineData(412_345, "USD 412,000")]
    [InlineData(87.4, "USD 87")]
    [InlineData(0, "USD 0")]
    public void Money_Amount_ThreeDigits(double amount, string expected) =>
        Assert.Equal(expected, NumberNotation.Money(amount, "USD"));

    [Theory]
    [InlineData("remove to chloride limit and overlay", "remove to chloride<br>limit and overlay")]
    [InlineData("a<b> $x$", "a&lt;b&gt; \uFF04x\uFF04")]
    [InlineData("", "")]
    public void WrappedChartLabel_Text_EscapedAndOnLines(string text, string expected) =>
        Assert.Equal(expected, DeckLife.Reporting.Html.HtmlEscape.WrappedChartLabel(text));
}
