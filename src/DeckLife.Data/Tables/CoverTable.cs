using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Surveys;

namespace DeckLife.Data.Tables;

/// <summary>Reads cover surveys: one row a reading.</summary>
internal static class CoverTable
{
    internal static readonly ColumnSpec[] Specs =
    [
        new(
            "cover",
            ColumnKind.Quantity,
            Dimension.Length,
            "cover",
            ["cover_depth", "clear_cover", "top_cover"]
        ),
        new("unit", ColumnKind.UnitOf, Group: "cover", Synonyms: ["units", "cover_unit"]),
        new("position_unit", ColumnKind.UnitOf, Group: "position", Synonyms: ["position_units"]),
        new("x", ColumnKind.Quantity, Dimension.Length, "position"),
        new("y", ColumnKind.Quantity, Dimension.Length, "position"),
        new("station", ColumnKind.Station, Dimension.Length, "position", ["sta"]),
        new("offset", ColumnKind.Quantity, Dimension.Length, "position"),
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
                "point",
                "reading",
                "bar",
                "id",
                "location",
            ]
        ),
    ];

    public static SurveyTable<CoverReading>? Read(
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
            "cover, such as x_ft,y_ft,cover_in",
            problems
        );
        if (table is null)
        {
            return null;
        }

        if (table["cover"] is not { } column)
        {
            problems.Add(
                DiagnosticCatalogue.ColumnMissing,
                null,
                "cover",
                null,
                "cover",
                "write cover_in or cover_mm."
            );
            return null;
        }

        var places = CellReading.PlaceColumns(table);
        var readings = ImmutableArray.CreateBuilder<CoverReading>();
        var rows = 0;
        foreach (var row in table.Rows())
        {
            rows++;
            var place = places is { } p ? CellReading.Place(table, row, p.Along, p.Across) : null;
            if (column.Text(row).Length == 0)
            {
                problems.Add(
                    DiagnosticCatalogue.CellEmpty,
                    row.Line,
                    column.Head,
                    "",
                    "remove the row where no cover could be read."
                );
                continue;
            }

            if (
                CellReading.Length(
                    table,
                    row,
                    column,
                    0,
                    300,
                    "a cover lies between 0 and 300 mm (12 in)"
                ) is
                { } mm
            )
            {
                readings.Add(
                    new(
                        row.Line,
                        Along(place?.X, places, context),
                        place?.Y,
                        Depth.FromMillimetres(mm)
                    )
                );
            }
        }

        if (rows == 0 && !problems.HasErrors)
        {
            problems.Add(
                DiagnosticCatalogue.RowsMissing,
                null,
                null,
                null,
                "add one row for each reading."
            );
        }

        return new(readings.ToImmutable(), places?.Along == "station", places?.Along == "x");
    }

    internal static double? Along(
        double? x,
        (string Along, string Across)? places,
        TableContext context
    ) => places?.Along == "station" ? x - (context.StartStationM ?? 0) : x;
}
