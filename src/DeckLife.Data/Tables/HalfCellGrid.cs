using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Surveys;

namespace DeckLife.Data.Tables;

/// <summary>A half-cell survey laid out as a grid: positions in the first row and column, potentials between.</summary>
internal sealed partial class HalfCellGrid
{
    private readonly char separator;
    private readonly TableRow head;
    private readonly int corner;
    private readonly string unitLine;
    private readonly Match axes;

    private HalfCellGrid(char separator, TableRow head, int corner, string unitLine, Match axes)
    {
        this.separator = separator;
        this.head = head;
        this.corner = corner;
        this.unitLine = unitLine;
        this.axes = axes;
    }

    /// <summary>Finds the corner cell, such as <c>y_ft\x_ft</c>; null where the table is no grid.</summary>
    public static HalfCellGrid? Find(ITableSource source, TableContext context)
    {
        foreach (var candidate in source.Separators)
        {
            var units = "";
            var seen = 0;
            foreach (var row in source.Rows(candidate, true, null))
            {
                if (++seen > 100)
                {
                    break;
                }

                var text = string.Join(' ', row.Cells.Where(c => c.Length > 0));
                var at = text.IndexOf("units:", StringComparison.OrdinalIgnoreCase);
                if (at >= 0)
                {
                    units = text[(at + 6)..];
                }

                var first = Array.FindIndex(row.Cells, c => c.Length > 0);
                if (
                    first >= 0
                    && row.Cells[first].Length < 80
                    && Corner().Match(row.Cells[first]) is { Success: true } match
                )
                {
                    return row.Cells.Length > first + 1
                        ? new HalfCellGrid(candidate, row, first, units, match)
                        : null;
                }
            }
        }

        return null;
    }

    public SurveyTable<HalfCellReading>? Read(
        ITableSource source,
        TableContext context,
        ProblemList problems
    )
    {
        var (downAxis, acrossAxis) = (
            Axis(axes.Groups["down"].Value),
            Axis(axes.Groups["across"].Value)
        );
        var cornerText = head.Cells[corner];
        if (downAxis == acrossAxis)
        {
            Bad(
                problems,
                $"'{cornerText}' names {downAxis} twice: write the coordinate down the rows, \\, the coordinate across the columns, such as y_ft\\x_ft."
            );
            return null;
        }

        if (
            !Units.TryFind(
                Dimension.Length,
                axes.Groups["downUnit"].Value,
                out var downUnit,
                out var why
            )
            || !Units.TryFind(
                Dimension.Length,
                axes.Groups["acrossUnit"].Value,
                out var acrossUnit,
                out why
            )
        )
        {
            Bad(problems, $"'{cornerText}': {why}. Write, for example, y_ft\\x_ft.");
            return null;
        }

        var unitText = PotentialName().Replace(unitLine.Trim(), "").Trim(' ', '=', ':');
        if (!PotentialUnit.TryFind(unitText, context.Electrode, out var unit, out why))
        {
            Bad(
                problems,
                $"the unit of the potentials: {why}. Write it in a line above the grid: # units: potential mV CSE"
            );
            return null;
        }

        var mark = Mark(source);
        var across = Positions(head.Cells[(corner + 1)..], head.Line, acrossUnit, mark, problems);
        var checks = new PotentialChecks(context);
        var nodes = 0;
        var missing = 0;
        var downSeen = new HashSet<double>();
        foreach (var row in source.Rows(separator, false, problems))
        {
            if (row.Line <= head.Line || row.IsBlank || row.IsComment)
            {
                continue;
            }

            if (row.Malformed is not null)
            {
                problems.Add(DiagnosticCatalogue.QuotesBroken, row.Line, null, null, row.Malformed);
                continue;
            }

            var down = Position(
                row.Cells.Length > corner ? row.Cells[corner] : "",
                row.Line,
                downUnit,
                mark,
                problems
            );
            if (down is { } d && !downSeen.Add(d))
            {
                problems.Add(
                    DiagnosticCatalogue.PositionTwice,
                    row.Line,
                    null,
                    row.Cells[corner],
                    row.Cells[corner]
                );
            }

            for (var i = corner + 1; i < Math.Max(row.Cells.Length, head.Cells.Length); i++)
            {
                var text = i < row.Cells.Length ? row.Cells[i] : "";
                var column = i < head.Cells.Length ? head.Cells[i] : "";
                if (column.Length == 0)
                {
                    if (text.Length > 0)
                    {
                        problems.Add(
                            DiagnosticCatalogue.CellWithoutHead,
                            row.Line,
                            null,
                            text,
                            text,
                            i + 1
                        );
                    }

                    continue;
                }

                nodes++;
                if (HalfCellTable.IsMissing(text))
                {
                    missing++;
                }
                else if (!NumberText.TryParse(text, mark, false, out var number, out var problem))
                {
                    problems.Add(
                        DiagnosticCatalogue.ValueUnreadable,
                        row.Line,
                        column,
                        text,
                        text,
                        problem
                    );
                }
                else if (down is { } y && across.GetValueOrDefault(i - corner - 1) is { } x)
                {
                    var along = downAxis is "x" or "station" ? y : x;
                    var side = downAxis is "x" or "station" ? x : y;
                    var stationed = downAxis == "station" || acrossAxis == "station";
                    checks.Add(
                        row.Line,
                        stationed ? along - (context.StartStationM ?? 0) : along,
                        side,
                        number,
                        unit,
                        column,
                        text
                    );
                }
            }
        }

        if (nodes == 0 && !problems.HasErrors)
        {
            problems.Add(
                DiagnosticCatalogue.RowsMissing,
                null,
                null,
                null,
                "add one row for each line of the grid."
            );
        }

        HalfCellTable.ReportMissing(missing, nodes, problems);
        var usesStations = downAxis == "station" || acrossAxis == "station";
        return new(checks.Finish(problems), usesStations, !usesStations);
    }

    private static string Axis(string text) =>
        text.ToLowerInvariant() is "sta" ? "station" : text.ToLowerInvariant();

    private static void Bad(ProblemList problems, string text) =>
        problems.Add(DiagnosticCatalogue.MatrixCorner, null, null, null, text);

    private DecimalMark Mark(ITableSource source)
    {
        var points = false;
        var commas = false;
        foreach (
            var cell in source
                .Rows(separator, false, null)
                .Where(r => !r.IsComment && r.Line >= head.Line)
                .SelectMany(r => r.Cells)
        )
        {
            var evidence = NumberText.Evidence(cell);
            points |= evidence == DecimalMark.Point;
            commas |= evidence == DecimalMark.Comma;
        }

        return points && commas ? DecimalMark.Mixed
            : points ? DecimalMark.Point
            : commas ? DecimalMark.Comma
            : DecimalMark.Unknown;
    }

    private static Dictionary<int, double?> Positions(
        string[] cells,
        int line,
        Unit unit,
        DecimalMark mark,
        ProblemList problems
    )
    {
        var positions = new Dictionary<int, double?>();
        var seen = new HashSet<double>();
        for (var i = 0; i < cells.Length; i++)
        {
            if (cells[i].Length == 0)
            {
                continue;
            }

            positions[i] = Position(cells[i], line, unit, mark, problems);
            if (positions[i] is { } at && !seen.Add(at))
            {
                problems.Add(DiagnosticCatalogue.PositionTwice, line, cells[i], cells[i], cells[i]);
            }
        }

        return positions;
    }

    private static double? Position(
        string text,
        int line,
        Unit unit,
        DecimalMark mark,
        ProblemList problems
    )
    {
        if (Station().Match(text) is { Success: true } station)
        {
            var each = station.Groups["rest"].Length == 2 ? 100 : 1000;
            return (
                    (
                        each
                        * double.Parse(station.Groups["whole"].Value, CultureInfo.InvariantCulture)
                    )
                    + double.Parse(
                        station.Groups["rest"].Value + station.Groups["part"].Value,
                        CultureInfo.InvariantCulture
                    )
                )
                * unit.Factor
                / 1000;
        }

        if (
            NumberText.TryParse(
                text,
                mark,
                unit.Name is "in" or "ft",
                out var number,
                out var problem
            )
            && Math.Abs(number * unit.Factor) < 2e7
        )
        {
            return number * unit.Factor / 1000;
        }

        problems.Add(
            DiagnosticCatalogue.ValueUnreadable,
            line,
            null,
            text,
            text,
            "it stands for a position of the grid: " + (problem ?? "a position lies within 20 km")
        );
        return null;
    }

    [GeneratedRegex(
        @"^\s*(?<down>x|y|station|sta|offset)[_ (]*(?<downUnit>[a-z""']*)\)?\s*[\\/|]\s*(?<across>x|y|station|sta|offset)[_ (]*(?<acrossUnit>[a-z""']*)\)?\s*$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Corner();

    [GeneratedRegex(@"^potentials?\s*[=:]?\s*", RegexOptions.IgnoreCase)]
    private static partial Regex PotentialName();

    [GeneratedRegex(@"^(?<whole>\d{1,4})\+(?<rest>\d{2,3})(?<part>\.\d+)?$")]
    private static partial Regex Station();
}
