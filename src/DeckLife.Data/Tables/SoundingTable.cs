using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Survey;
using DeckLife.Surveys;

namespace DeckLife.Data.Tables;

/// <summary>Reads sounding surveys: one row an area, by its size, as a rectangle, by stations and offsets, or by its corners.</summary>
internal static class SoundingTable
{
    internal static readonly ColumnSpec[] Specs =
    [
        new("finding", ColumnKind.Text, Synonyms: ["type", "defect", "found", "condition"]),
        new("area", ColumnKind.Quantity, Dimension.Area, "area", ["size"]),
        new("x_min", ColumnKind.Quantity, Dimension.Length, "position", ["x_from", "x1"]),
        new("x_max", ColumnKind.Quantity, Dimension.Length, "position", ["x_to", "x2"]),
        new("y_min", ColumnKind.Quantity, Dimension.Length, "position", ["y_from", "y1"]),
        new("y_max", ColumnKind.Quantity, Dimension.Length, "position", ["y_to", "y2"]),
        new(
            "station_from",
            ColumnKind.Station,
            Dimension.Length,
            "position",
            ["sta_from", "from_station"]
        ),
        new(
            "station_to",
            ColumnKind.Station,
            Dimension.Length,
            "position",
            ["sta_to", "to_station"]
        ),
        new("offset_from", ColumnKind.Quantity, Dimension.Length, "position", ["from_offset"]),
        new("offset_to", ColumnKind.Quantity, Dimension.Length, "position", ["to_offset"]),
        new("corners", ColumnKind.Corners, Dimension.Length, "position", ["polygon"]),
        new("area_unit", ColumnKind.UnitOf, Group: "area"),
        new("position_unit", ColumnKind.UnitOf, Group: "position", Synonyms: ["position_units"]),
        new(
            "remark",
            ColumnKind.Remark,
            Synonyms:
            [
                "remarks",
                "note",
                "notes",
                "comment",
                "comments",
                "no",
                "id",
                "location",
                "span",
                "lane",
            ]
        ),
    ];

    private static readonly string[] XyColumns = ["x_min", "x_max", "y_min", "y_max"];
    private static readonly string[] StationColumns =
    [
        "station_from",
        "station_to",
        "offset_from",
        "offset_to",
    ];

    public static SurveyTable<SoundingArea>? Read(
        ITableSource source,
        TableContext context,
        ProblemList problems
    )
    {
        var table = OpenTable.TryOpen(
            source,
            Specs,
            ImmutableDictionary<string, string>.Empty,
            null,
            "finding and area, such as finding,area_ft2, or finding,x_min_ft,x_max_ft,y_min_ft,y_max_ft",
            problems
        );
        if (table is null)
        {
            return null;
        }

        if (!table.Has("finding"))
        {
            problems.Add(
                DiagnosticCatalogue.ColumnMissing,
                null,
                "finding",
                null,
                "finding",
                "say what was found: delaminated, spalled or patched."
            );
            return null;
        }

        foreach (var four in new[] { XyColumns, StationColumns })
        {
            var lacking = four.Where(c => !table.Has(c)).ToList();
            if (lacking.Count is > 0 and < 4)
            {
                foreach (var name in lacking)
                {
                    problems.Add(
                        DiagnosticCatalogue.ColumnMissing,
                        null,
                        name,
                        null,
                        name,
                        "a rectangle has four limits."
                    );
                }
            }
        }

        var areas = ImmutableArray.CreateBuilder<SoundingArea>();
        foreach (var row in table.Rows())
        {
            if (ReadRow(table, row, context) is { } area)
            {
                areas.Add(area);
            }
        }

        if (problems.HasErrors)
        {
            return new([], table.Has("station_from"), table.Has("x_min") || table.Has("corners"));
        }

        var (net, reduced, shared) = SoundingShapes.CountOnce(areas.ToImmutable());
        if (reduced > 0)
        {
            problems.Add(
                DiagnosticCatalogue.AreasOverlap,
                null,
                null,
                null,
                reduced,
                shared.ToString("G4", CultureInfo.InvariantCulture)
            );
        }

        return new(net, table.Has("station_from"), table.Has("x_min") || table.Has("corners"));
    }

    private static SoundingArea? ReadRow(OpenTable table, TableRow row, TableContext context)
    {
        var problems = table.Problems;
        var findingColumn = table["finding"]!;
        var said = findingColumn.Text(row);
        var finding = Finding(said);
        if (finding is null)
        {
            problems.Add(
                DiagnosticCatalogue.FindingUnknown,
                row.Line,
                findingColumn.Head,
                said,
                said
            );
        }

        var ways = new List<string>();
        void Way(string name, bool given)
        {
            if (given)
            {
                ways.Add(name);
            }
        }

        bool Filled(string name) => table[name]?.Text(row).Length > 0;
        Way("a size", Filled("area"));
        Way("limits in x and y", XyColumns.Any(Filled));
        Way("stations and offsets", StationColumns.Any(Filled));
        Way("corners", Filled("corners"));
        if (ways.Count == 0)
        {
            problems.Add(DiagnosticCatalogue.SoundingShape, row.Line, null, null);
            return null;
        }

        if (ways.Count > 1)
        {
            problems.Add(
                DiagnosticCatalogue.SoundingTwoShapes,
                row.Line,
                null,
                null,
                ways[0],
                ways[1]
            );
            return null;
        }

        ImmutableArray<(double, double)> corners = [];
        double size;
        if (Filled("area"))
        {
            var column = table["area"]!;
            var text = column.Text(row);
            if (!column.TryMeasure(table, row, text, null, out var number, out var unit, out _))
            {
                return null;
            }

            size = number * unit.Factor;
            if (!(size > 0) || size > 1e6)
            {
                column.Impossible(
                    problems,
                    row,
                    text,
                    number,
                    "an area lies above 0 and below 1 000 000 m2"
                );
                return null;
            }
        }
        else
        {
            var shape =
                Filled("corners") ? ReadCorners(table, row, context)
                : XyColumns.Any(Filled) ? ReadLimits(table, row, XyColumns, 0)
                : ReadLimits(table, row, StationColumns, context.StartStationM ?? 0);
            if (shape is not { } given)
            {
                return null;
            }

            corners = given;
            if (!SoundingShapes.TryMeasure(corners, out size, out var problem))
            {
                problems.Add(
                    DiagnosticCatalogue.PolygonBroken,
                    row.Line,
                    table["corners"]?.Head,
                    table["corners"]?.Text(row),
                    problem
                );
                return null;
            }
        }

        return finding is { } found
            ? new SoundingArea
            {
                Row = row.Line,
                Finding = found,
                AreaM2 = size,
                Corners = corners,
            }
            : null;
    }

    private static SoundingFinding? Finding(string text) =>
        text.Trim().ToUpperInvariant() switch
        {
            "DELAMINATED" or "DELAMINATION" or "DELAM" or "HOLLOW" or "UNSOUND" or "DRUMMY" =>
                SoundingFinding.Delaminated,
            "SPALLED" or "SPALL" or "SPALLING" or "POTHOLE" => SoundingFinding.Spalled,
            "PATCHED" or "PATCH" or "REPAIR" or "REPAIRED" => SoundingFinding.Patched,
            _ => null,
        };

    private static ImmutableArray<(double, double)>? ReadLimits(
        OpenTable table,
        TableRow row,
        string[] names,
        double origin
    )
    {
        var limits = new double[4];
        var sound = true;
        for (var i = 0; i < 4; i++)
        {
            if (table[names[i]] is not { } column)
            {
                return null;
            }

            if (column.Text(row).Length == 0)
            {
                table.Problems.Add(
                    DiagnosticCatalogue.CellEmpty,
                    row.Line,
                    column.Head,
                    "",
                    "a rectangle has four limits."
                );
                sound = false;
                continue;
            }

            if (CellReading.Position(table, row, names[i]) is { } at)
            {
                limits[i] = i < 2 ? at - origin : at;
            }
            else
            {
                sound = false;
            }
        }

        if (sound && (limits[0] == limits[1] || limits[2] == limits[3]))
        {
            table.Problems.Add(
                DiagnosticCatalogue.PolygonBroken,
                row.Line,
                table[names[limits[0] == limits[1] ? 1 : 3]]!.Head,
                null,
                "has two equal limits and so no area"
            );
            return null;
        }

        return sound ? SoundingShapes.Rectangle(limits[0], limits[1], limits[2], limits[3]) : null;
    }

    private static ImmutableArray<(double, double)>? ReadCorners(
        OpenTable table,
        TableRow row,
        TableContext context
    )
    {
        var column = table["corners"]!;
        var text = column.Text(row);
        if (column.Unit is not { } unit)
        {
            if (!column.IsBroken)
            {
                table.Problems.AddOnce(
                    DiagnosticCatalogue.UnitMissing,
                    row.Line,
                    column.Head,
                    text,
                    text,
                    $"the column '{column.Head}'",
                    "corners_ft"
                );
            }

            return null;
        }

        var corners = ImmutableArray.CreateBuilder<(double, double)>();
        foreach (
            var pair in text.Split(
                [';', '|'],
                StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
            )
        )
        {
            var parts = pair.Trim('(', ')')
                .Split([' ', '\u00A0'], StringSplitOptions.RemoveEmptyEntries);
            if (
                parts.Length != 2
                || !NumberText.TryParse(parts[0], table.Mark, false, out var x, out _)
                || !NumberText.TryParse(parts[1], table.Mark, false, out var y, out _)
                || Math.Abs(x * unit.Factor) > 2e7
                || Math.Abs(y * unit.Factor) > 2e7
            )
            {
                table.Problems.Add(
                    DiagnosticCatalogue.ValueUnreadable,
                    row.Line,
                    column.Head,
                    text,
                    pair,
                    "a corner is x, a space, y; corners are separated by semicolons, such as 0 0; 12 0; 12 6"
                );
                return null;
            }

            corners.Add((x * unit.Factor / 1000, y * unit.Factor / 1000));
            if (corners.Count > 2000)
            {
                table.Problems.Add(
                    DiagnosticCatalogue.ValueUnreadable,
                    row.Line,
                    column.Head,
                    "",
                    "more than 2000 corners",
                    "draw the area with fewer"
                );
                return null;
            }
        }

        return corners.ToImmutable();
    }
}
