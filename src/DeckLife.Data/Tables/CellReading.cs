using System.Globalization;
using System.Text.RegularExpressions;
using DeckLife.Diagnostics;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>Reads single cells of an open table; each problem is reported once, at its cell.</summary>
internal static partial class CellReading
{
    private const double FarthestMm = 2e7;

    /// <summary>A length, sign allowed [mm]; null when absent or wrong.</summary>
    public static double? Length(
        OpenTable table,
        TableRow row,
        TableColumn column,
        double least,
        double most,
        string allowed
    )
    {
        var text = column.Text(row);
        if (!column.TryMeasure(table, row, text, null, out var number, out var unit, out _))
        {
            return null;
        }

        var mm = number * unit.Factor;
        if (!double.IsFinite(mm) || mm < least || mm > most)
        {
            column.Impossible(table.Problems, row, text, number, allowed);
            return null;
        }

        return mm;
    }

    /// <summary>A position [m] in an optional column; null when the table or the row has none.</summary>
    public static double? Position(OpenTable table, TableRow row, string name)
    {
        if (table[name] is not { } column)
        {
            return null;
        }

        var text = column.Text(row);
        if (text.Length == 0)
        {
            return null;
        }

        if (
            column.Spec.Kind == ColumnKind.Station
            && Station().Match(NumberText.Clean(text)) is { Success: true } station
        )
        {
            return StationMetres(table, row, column, text, station);
        }

        return Length(table, row, column, -FarthestMm, FarthestMm, "a position lies within 20 km")
            / 1000;
    }

    /// <summary>The two coordinates of a row: x and y, or station and offset [m].</summary>
    public static (double X, double Y)? Place(
        OpenTable table,
        TableRow row,
        string along,
        string across
    )
    {
        var x = Position(table, row, along);
        var y = Position(table, row, across);
        if (x is { } a && y is { } b)
        {
            return (a, b);
        }

        var missing = x is null ? along : across;
        if (
            (x is null) != (y is null)
            && table[missing] is { } column
            && column.Text(row).Length == 0
        )
        {
            table.Problems.Add(
                DiagnosticCatalogue.CellEmpty,
                row.Line,
                column.Head,
                "",
                $"a position needs both {along} and {across}."
            );
        }

        return null;
    }

    /// <summary>Which pair of columns gives positions; reports half a pair and two pairs.</summary>
    public static (string Along, string Across)? PlaceColumns(OpenTable table)
    {
        (string, string)? found = null;
        foreach (var (along, across) in new[] { ("x", "y"), ("station", "offset") })
        {
            if (table.Has(along) != table.Has(across))
            {
                var (has, lacks) = table.Has(along) ? (along, across) : (across, along);
                table.Problems.Add(
                    DiagnosticCatalogue.PositionHalf,
                    null,
                    table[has]!.Head,
                    null,
                    $"'{table[has]!.Head}'",
                    lacks
                );
            }
            else if (table.Has(along))
            {
                if (found is not null)
                {
                    table.Problems.Add(
                        DiagnosticCatalogue.ColumnTwice,
                        null,
                        table[along]!.Head,
                        null,
                        table["x"]!.Head,
                        table[along]!.Head,
                        "the position"
                    );
                }

                found ??= (along, across);
            }
        }

        return found;
    }

    /// <summary>Yes or no; null when empty or wrong.</summary>
    public static bool? Flag(OpenTable table, TableRow row, string name)
    {
        if (table[name] is not { } column)
        {
            return null;
        }

        var text = column.Text(row);
        switch (text.ToUpperInvariant())
        {
            case "":
                return null;
            case "YES" or "Y" or "TRUE" or "1" or "X" or "CRACKED" or "ON CRACK":
                return true;
            case "NO" or "N" or "FALSE" or "0" or "SOUND" or "UNCRACKED" or "NOT CRACKED":
                return false;
            default:
                table.Problems.Add(
                    DiagnosticCatalogue.FlagUnclear,
                    row.Line,
                    column.Head,
                    text,
                    text
                );
                return null;
        }
    }

    /// <summary>A date; null when empty or wrong.</summary>
    public static DateOnly? Date(OpenTable table, TableRow row, string name)
    {
        if (table[name] is not { } column)
        {
            return null;
        }

        var text = column.Text(row);
        if (text.Length == 0)
        {
            return null;
        }

        if (DateText.TryParse(text, out var date, out var problem))
        {
            return date;
        }

        table.Problems.Add(
            DiagnosticCatalogue.DateUnclear,
            row.Line,
            column.Head,
            text,
            text,
            problem
        );
        return null;
    }

    private static double? StationMetres(
        OpenTable table,
        TableRow row,
        TableColumn column,
        string text,
        Match station
    )
    {
        if (column.Unit is not { } unit)
        {
            table.Problems.AddOnce(
                DiagnosticCatalogue.UnitMissing,
                row.Line,
                column.Head,
                text,
                text,
                "a station",
                "station_ft"
            );
            return null;
        }

        // Two digits behind the plus count hundreds (feet, and metres in some countries), three count thousands.
        var each = station.Groups["rest"].Length == 2 ? 100 : 1000;
        var number =
            (each * double.Parse(station.Groups["whole"].Value, CultureInfo.InvariantCulture))
            + double.Parse(
                station.Groups["rest"].Value + station.Groups["part"].Value,
                CultureInfo.InvariantCulture
            );
        return number * unit.Factor / 1000;
    }

    [GeneratedRegex(@"^(?<whole>\d{1,4})\+(?<rest>\d{2,3})(?<part>\.\d+)?$")]
    private static partial Regex Station();
}
