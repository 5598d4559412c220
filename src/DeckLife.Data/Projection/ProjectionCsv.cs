using System.Globalization;
using CsvHelper;
using DeckLife.Projection;

namespace DeckLife.Data.Projection;

/// <summary>Writes the curves of a projection as CSV: one row a strategy and year.</summary>
public static class ProjectionCsv
{
    private static readonly string[] Head =
    [
        "strategy",
        "time_yr",
        "calendar_year",
        "damaged_fraction_p05",
        "damaged_fraction_p50",
        "damaged_fraction_p95",
        "damaged_or_patched_fraction_p05",
        "damaged_or_patched_fraction_p50",
        "damaged_or_patched_fraction_p95",
        "initiated_fraction_p05",
        "initiated_fraction_p50",
        "initiated_fraction_p95",
    ];

    /// <summary>Writes the curves; fractions of the deck area, the invariant culture; no name in it can act as a spreadsheet's formula.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="output">Where to.</param>
    public static void Write(DeckProjection projection, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(projection);
        ArgumentNullException.ThrowIfNull(output);
        using var csv = CsvWriter.Create(
            output,
            CsvWriterOptions.Default with
            {
                FormatProvider = CultureInfo.InvariantCulture,
            },
            leaveOpen: true
        );
        WriteRow(csv, Head);
        foreach (var strategy in projection.Strategies)
        {
            foreach (var point in strategy.Curve)
            {
                double[] numbers =
                [
                    point.TimeYr,
                    projection.Deck.SurveyYear + point.TimeYr,
                    point.Damaged.P05,
                    point.Damaged.P50,
                    point.Damaged.P95,
                    point.DamagedOrPatched.P05,
                    point.DamagedOrPatched.P50,
                    point.DamagedOrPatched.P95,
                    point.Initiated.P05,
                    point.Initiated.P50,
                    point.Initiated.P95,
                ];
                WriteRow(
                    csv,
                    [
                        CsvText.Harmless(strategy.Strategy.Name),
                        .. numbers.Select(n => n.ToString("R", CultureInfo.InvariantCulture)),
                    ]
                );
            }
        }
    }

    private static void WriteRow(CsvWriter csv, IEnumerable<string> fields)
    {
        foreach (var field in fields)
        {
            csv.WriteField(field);
        }

        csv.EndRecord();
    }
}
