using System.Globalization;
using DeckLife.Numerics.SpecialFunctions;
using Xunit;

namespace DeckLife.Numerics.Tests.ErrorFunctions;

public class RepeatedErfcIntegralTests
{
    [Fact]
    public void Value_OrdersMinus1To6_RelativeErrorBelow1e14()
    {
        foreach (var (order, x, _, expected) in PeerValues.Of("inerfc"))
        {
            ErrorFunctionTests.AssertRelative(
                expected,
                RepeatedErfcIntegral.Value((int)order, x),
                1e-14,
                $"i{order}erfc({x:R})"
            );
        }
    }

    [Fact]
    public void FirstAndSecond_EqualTheGeneralOrder()
    {
        foreach (var (order, x, _, expected) in PeerValues.Of("inerfc"))
        {
            if (order == 1)
            {
                ErrorFunctionTests.AssertRelative(
                    expected,
                    RepeatedErfcIntegral.First(x),
                    1e-14,
                    $"{x}"
                );
            }
            else if (order == 2)
            {
                ErrorFunctionTests.AssertRelative(
                    expected,
                    RepeatedErfcIntegral.Second(x),
                    1e-14,
                    $"{x}"
                );
            }
        }
    }

    [Fact]
    public void Scaled_LargeArguments_DoesNotUnderflow()
    {
        foreach (var (order, x, _, expected) in PeerValues.Of("scaled"))
        {
            ErrorFunctionTests.AssertRelative(
                expected,
                RepeatedErfcIntegral.Scaled((int)order, x),
                1e-14,
                $"scaled i{order}erfc({x:R})"
            );
        }
    }

    [Fact]
    public void Value_RealOrder_RelativeErrorBelow1e13()
    {
        foreach (var (order, x, _, expected) in PeerValues.Of("realorder"))
        {
            ErrorFunctionTests.AssertRelative(
                expected,
                RepeatedErfcIntegral.Value(order, x),
                1e-13,
                $"i^{order}erfc({x:R})"
            );
        }
    }

    [Fact]
    public void Value_CranksTable_EveryEntryAgrees()
    {
        // Crank 1975, table 2.1 (grid and quantities), recomputed with 80 digits in the outside data.
        var folder = Environment.GetEnvironmentVariable("DECKLIFE_OUTSIDE_DATA");
        if (folder is null)
        {
            Console.WriteLine("skipped: outside data absent");
            return;
        }

        var lines = File.ReadLines(Path.Combine(folder, "checks", "inerfc_table.csv")).Skip(2);
        var rows = 0;
        foreach (var line in lines)
        {
            var cells = line.Split(',')
                .Select(c => double.Parse(c, CultureInfo.InvariantCulture))
                .ToArray();
            rows++;
            ErrorFunctionTests.AssertRelative(
                cells[3],
                RepeatedErfcIntegral.Value(-1, cells[0]),
                1e-14,
                $"x = {cells[0]}, order -1"
            );
            foreach (
                var (order, column) in new[]
                {
                    (0, 2),
                    (1, 4),
                    (2, 5),
                    (3, 6),
                    (4, 7),
                    (5, 8),
                    (6, 9),
                }
            )
            {
                // The table's x is decimal; the double nearest it moves the value by up to 2x² rounding units.
                ErrorFunctionTests.AssertRelative(
                    cells[column],
                    RepeatedErfcIntegral.Value(order, cells[0]),
                    2e-14,
                    $"x = {cells[0]}, order {order}"
                );
            }
        }

        Assert.Equal(81, rows);
    }

    [Theory]
    [InlineData(-2)]
    [InlineData(61)]
    public void Value_OrderOutOfRange_Throws(int order) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => RepeatedErfcIntegral.Value(order, 1.0));
}
