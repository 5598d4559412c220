using System.Globalization;

namespace DeckLife.ReferenceChecks;

/// <summary>Reference values of a table with a row and a column variable.</summary>
internal static class ReferenceGrid
{
    /// <summary>Digits of a table, as a relative tolerance: half a unit of the last of them behind a leading 1.</summary>
    public static double Digits(int count) => 0.5 * Math.Pow(10, 1 - count) * (1 + 1e-6);

    /// <summary>One value a cell, rows first.</summary>
    public static IEnumerable<ReferenceValue> Values(
        (string Name, double[] At) rows,
        (string Name, double[] At) columns,
        double[][] expected,
        Func<double, double, double> found,
        double tolerance,
        string unit = ""
    )
    {
        for (var i = 0; i < rows.At.Length; i++)
        {
            if (expected[i].Length != columns.At.Length)
            {
                throw new ArgumentException(
                    $"row {i} of {rows.Name} has a wrong length",
                    nameof(expected)
                );
            }

            for (var k = 0; k < columns.At.Length; k++)
            {
                var (row, column) = (rows.At[i], columns.At[k]);
                yield return new(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{rows.Name} {row}, {columns.Name} {column}{unit}"
                    ),
                    expected[i][k],
                    () => found(row, column),
                    tolerance
                );
            }
        }
    }

    /// <summary>One value a point of a single variable.</summary>
    public static IEnumerable<ReferenceValue> Values(
        string name,
        double[] at,
        double[] expected,
        Func<double, double> found,
        double tolerance
    )
    {
        if (at.Length != expected.Length)
        {
            throw new ArgumentException($"{name} has a wrong length", nameof(expected));
        }

        return at.Zip(
            expected,
            (x, y) =>
                new ReferenceValue(
                    string.Create(CultureInfo.InvariantCulture, $"{name} {x}"),
                    y,
                    () => found(x),
                    tolerance
                )
        );
    }
}
