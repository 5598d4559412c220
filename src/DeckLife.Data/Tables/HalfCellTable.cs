using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Surveys;

namespace DeckLife.Data.Tables;

/// <summary>Reads half-cell surveys: one row a node, or a grid with missing nodes.</summary>
internal static class HalfCellTable
{
    internal static readonly ColumnSpec[] Specs =
    [
        new(
            "potential",
            ColumnKind.Quantity,
            Dimension.Potential,
            "potential",
            ["half_cell", "half_cell_potential", "reading"]
        ),
        new("unit", ColumnKind.UnitOf, Group: "potential", Synonyms: ["units", "potential_unit"]),
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
                "node",
                "point",
                "id",
            ]
        ),
    ];

    public static SurveyTable<HalfCellReading>? Read(
        ITableSource source,
        TableContext context,
        ProblemList problems
    )
    {
        if (HalfCellGrid.Find(source, context) is { } grid)
        {
            return grid.Read(source, context, problems);
        }

        var table = OpenTable.TryOpen(
            source,
            Specs,
            ImmutableDictionary<string, string>.Empty,
            context.Electrode,
            "x, y and potential, such as x_ft,y_ft,potential_mv_cse, or the corner of a grid, such as y_ft\\x_ft",
            problems
        );
        if (table is null)
        {
            return null;
        }

        if (table["potential"] is not { } column)
        {
            problems.Add(
                DiagnosticCatalogue.ColumnMissing,
                null,
                "potential",
                null,
                "potential",
                "write potential_mv_cse, or name the electrode."
            );
            return null;
        }

        var places = CellReading.PlaceColumns(table);
        if (places is null)
        {
            problems.Add(
                DiagnosticCatalogue.ColumnMissing,
                null,
                "x",
                null,
                "x",
                "each node has its place: write x_ft and y_ft, or station_ft and offset_ft."
            );
            return null;
        }

        var checks = new PotentialChecks(context);
        var missing = 0;
        var rows = 0;
        foreach (var row in table.Rows())
        {
            rows++;
            var place = CellReading.Place(table, row, places.Value.Along, places.Value.Across);
            var text = column.Text(row);
            if (IsMissing(text))
            {
                missing++;
                continue;
            }

            if (
                column.TryMeasure(
                    table,
                    row,
                    text,
                    context.Electrode,
                    out var number,
                    out _,
                    out var unit
                ) && unit is not null
            )
            {
                if (place is { } at)
                {
                    checks.Add(
                        row.Line,
                        CoverTable.Along(at.X, places, context)!.Value,
                        at.Y,
                        number,
                        unit,
                        column.Head,
                        text
                    );
                }
                else if (
                    places is { } p
                    && table[p.Along]!.Text(row).Length == 0
                    && table[p.Across]!.Text(row).Length == 0
                )
                {
                    problems.Add(
                        DiagnosticCatalogue.CellEmpty,
                        row.Line,
                        table[p.Along]!.Head,
                        "",
                        "each node has its place."
                    );
                }
            }
        }

        if (rows == 0 && !problems.HasErrors)
        {
            problems.Add(
                DiagnosticCatalogue.RowsMissing,
                null,
                null,
                null,
                "add one row for each node."
            );
        }

        ReportMissing(missing, rows, problems);
        return new(
            checks.Finish(problems),
            places.Value.Along == "station",
            places.Value.Along == "x"
        );
    }

    internal static bool IsMissing(string text) =>
        text.ToUpperInvariant()
            is ""
                or "-"
                or "--"
                or "NA"
                or "N/A"
                or "NR"
                or "X"
                or "NO READING"
                or "#N/A"
                or "*";

    internal static void ReportMissing(int missing, int nodes, ProblemList problems)
    {
        if (missing > 0)
        {
            problems.Add(
                DiagnosticCatalogue.NodesMissing,
                null,
                null,
                null,
                missing.ToString(CultureInfo.InvariantCulture),
                nodes.ToString(CultureInfo.InvariantCulture)
            );
        }
    }
}
