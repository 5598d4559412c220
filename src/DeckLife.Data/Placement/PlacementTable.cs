using System.Collections.Immutable;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Placement;
using DeckLife.Quantities;

namespace DeckLife.Data.Placement;

/// <summary>Reads the hours of a placement day: one row a time, heads with their unit (time, air_f, concrete_f, humidity_percent, wind_mph).</summary>
public static class PlacementTable
{
    private const string Example = "time,air_f,concrete_f,humidity_percent,wind_mph";

    private delegate bool Reader(string text, out double value, out string? problem);

    private static readonly (
        string Quantity,
        (string Head, string Unit)[] Heads,
        Reader Read
    )[] Columns =
    [
        ("air", [("air_f", "°F"), ("air_c", "°C")], Celsius),
        ("concrete", [("concrete_f", "°F"), ("concrete_c", "°C")], Celsius),
        ("humidity", [("humidity_percent", "%")], PlacementText.TryHumidity),
        (
            "wind",
            [("wind_mph", "mph"), ("wind_km_per_h", "km/h"), ("wind_m_per_s", "m/s")],
            PlacementText.TryWind
        ),
    ];

    /// <summary>Reads a table.</summary>
    /// <param name="name">The file's name, for messages.</param>
    /// <param name="content">Its bytes: text in any usual encoding with commas, semicolons or tabs, or a workbook with one sheet.</param>
    /// <param name="problems">What is wrong; with an error nothing is returned.</param>
    /// <returns>The readings in the file's order; empty where there is an error.</returns>
    public static ImmutableArray<PlacementReading> Read(
        string name,
        ReadOnlyMemory<byte> content,
        out ImmutableArray<Diagnostic> problems
    )
    {
        ArgumentNullException.ThrowIfNull(name);
        var list = new ProblemList(name);
        var readings = TableSources.Open(name, content, "placement", list) is { } source
            ? Read(source, list)
            : [];
        problems = list.ToImmutable();
        return list.HasErrors ? [] : readings;
    }

    private static ImmutableArray<PlacementReading> Read(ITableSource source, ProblemList problems)
    {
        var separator = source.Separators.MaxBy(s =>
            source.Rows(s, headOnly: true, null).FirstOrDefault(IsUsed).Cells?.Length ?? 0
        );
        using var rows = source
            .Rows(separator, headOnly: false, problems)
            .Where(IsUsed)
            .GetEnumerator();
        if (!rows.MoveNext())
        {
            problems.Add(DiagnosticCatalogue.RowsMissing, null, null, null, $"such as {Example}.");
            return [];
        }

        var heads = rows.Current.Cells.Select(c => c.Trim().ToLowerInvariant()).ToArray();
        var time = Array.IndexOf(heads, "time");
        var places = Columns.Select(c => Find(heads, c, problems)).ToArray();
        if (problems.HasErrors)
        {
            return [];
        }

        var readings = ImmutableArray.CreateBuilder<PlacementReading>();
        while (rows.MoveNext())
        {
            if (ReadRow(rows.Current, heads, time, places, problems) is { } reading)
            {
                readings.Add(reading);
            }
        }

        if (readings.Count == 0 && !problems.HasErrors)
        {
            problems.Add(
                DiagnosticCatalogue.RowsMissing,
                null,
                null,
                null,
                "add one row for each hour."
            );
        }

        return readings.ToImmutable();
    }

    private static bool IsUsed(TableRow row) => !row.IsBlank && !row.IsComment;

    private static (int Place, string Unit) Find(
        string[] heads,
        (string Quantity, (string Head, string Unit)[] Heads, Reader Read) column,
        ProblemList problems
    )
    {
        var found = column.Heads.Where(h => heads.Contains(h.Head)).ToArray();
        if (found.Length == 1)
        {
            return (Array.IndexOf(heads, found[0].Head), found[0].Unit);
        }

        problems.Add(
            DiagnosticCatalogue.ColumnMissing,
            null,
            column.Quantity,
            null,
            column.Quantity,
            $"write one of {string.Join(", ", column.Heads.Select(h => h.Head))}."
        );
        return default;
    }

    private static PlacementReading? ReadRow(
        TableRow row,
        string[] heads,
        int time,
        (int Place, string Unit)[] places,
        ProblemList problems
    )
    {
        var values = new double[places.Length];
        var complete = true;
        for (var c = 0; c < places.Length; c++)
        {
            var (place, unit) = places[c];
            var cell = place < row.Cells.Length ? row.Cells[place] : "";
            if (cell.Length == 0)
            {
                problems.Add(
                    DiagnosticCatalogue.CellEmpty,
                    row.Line,
                    heads[place],
                    "",
                    "leave the row out where a reading is missing."
                );
                complete = false;
            }
            else if (!Columns[c].Read($"{cell} {unit}", out values[c], out var problem))
            {
                problems.Add(
                    DiagnosticCatalogue.QuantityUnreadable,
                    row.Line,
                    heads[place],
                    cell,
                    heads[place],
                    problem!
                );
                complete = false;
            }
        }

        if (!complete)
        {
            return null;
        }

        var reading = new PlacementReading(
            time >= 0 && time < row.Cells.Length ? row.Cells[time] : "",
            values[0],
            values[1],
            values[2],
            values[3]
        );
        if (EvaporationRate.Problem(reading) is { } impossible)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityUnreadable,
                row.Line,
                null,
                null,
                "row",
                impossible
            );
            return null;
        }

        return reading;
    }

    private static bool Celsius(string text, out double value, out string? problem)
    {
        var read = Temperature.TryParse(text, out var temperature, out problem);
        value = temperature.Celsius;
        return read;
    }
}
