using System.Collections.Immutable;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>Reference values beside what the library gives: drawn over each other, and digit by digit in the table.</summary>
public static class AgreementChart
{
    /// <summary>Draws the chart, and refuses where they differ by more than the tolerance.</summary>
    /// <param name="title">What is compared.</param>
    /// <param name="source">Where the reference values come from and how they were got.</param>
    /// <param name="xName">The axis of the argument, with its unit.</param>
    /// <param name="yName">The axis of the value, with its unit.</param>
    /// <param name="tolerance">Largest relative difference allowed.</param>
    /// <param name="points">Argument, reference value, and the library's value.</param>
    /// <exception cref="InvalidOperationException">A value differs by more than the tolerance, or there are none; the message names it.</exception>
    public static ReportChart Draw(
        string title,
        string source,
        string xName,
        string yName,
        double tolerance,
        params (double X, double Reference, double Found)[] points
    )
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Length == 0)
        {
            throw new InvalidOperationException($"{title}: no values to compare.");
        }

        foreach (var (x, reference, found) in points)
        {
            if (!(Difference(reference, found) <= tolerance))
            {
                throw new InvalidOperationException(
                    FormattableString.Invariant(
                        $"{title}: at {x} the library gives {found:G17}, the reference is {reference:G17}; the tolerance is {tolerance:G3}."
                    )
                );
            }
        }

        var json = new Figure()
            .Add(
                "scatter",
                ("x", points.Select(p => p.X).ToArray()),
                ("y", points.Select(p => p.Found).ToArray()),
                ("mode", "lines"),
                ("name", "DeckLife"),
                ("line", new { color = ChartPalette.Fitted, width = 2 })
            )
            .Add(
                "scatter",
                ("x", points.Select(p => p.X).ToArray()),
                ("y", points.Select(p => p.Reference).ToArray()),
                ("mode", "markers"),
                ("name", "reference"),
                (
                    "marker",
                    new
                    {
                        color = ChartPalette.Measured,
                        size = 9,
                        symbol = "circle-open",
                        line = new { width = 2 },
                    }
                )
            )
            .Layout(("xaxis", Figure.Axis(xName)), ("yaxis", Figure.Axis(yName)))
            .ToJson();
        var worst = points.Max(p => Difference(p.Reference, p.Found));
        return new ReportChart(
            title,
            $"Largest relative difference {NumberNotation.Significant(worst, 2)}; allowed {NumberNotation.Significant(tolerance, 2)}. {source}",
            $"{title}: {points.Length} reference values and the library's, with a largest relative difference of {NumberNotation.Significant(worst, 2)}.",
            320,
            json,
            json,
            new ReportTable(
                title,
                [
                    new(xName, true),
                    new("Reference", true),
                    new("DeckLife", true),
                    new("Relative difference", true),
                ],
                [
                    .. points.Select(p =>
                        ImmutableArray.Create(
                            ReportCell.Number(p.X, 6),
                            ReportCell.Number(p.Reference, 13),
                            ReportCell.Number(p.Found, 13),
                            ReportCell.Number(Difference(p.Reference, p.Found), 2)
                        )
                    ),
                ]
            )
        );
    }

    private static double Difference(double reference, double found) =>
        reference == 0 ? Math.Abs(found) : Math.Abs((found - reference) / reference);
}
