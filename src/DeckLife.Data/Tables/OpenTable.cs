using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>A table whose head row, units and decimal mark have been found; gives its rows.</summary>
internal sealed class OpenTable
{
    private const int HeadRows = 100;

    private readonly ITableSource source;
    private readonly char separator;
    private readonly int headLine;
    private readonly int unitsLine;
    private readonly string[] heads;
    private readonly Dictionary<string, TableColumn> columns;
    private readonly bool[] isRemark;

    private OpenTable(
        ITableSource source,
        ProblemList problems,
        char separator,
        int headLine,
        int unitsLine,
        string[] heads,
        Dictionary<string, TableColumn> columns,
        bool[] isRemark
    )
    {
        this.source = source;
        this.separator = separator;
        this.headLine = headLine;
        this.unitsLine = unitsLine;
        this.heads = heads;
        this.columns = columns;
        this.isRemark = isRemark;
        Problems = problems;
    }

    public ProblemList Problems { get; }

    public DecimalMark Mark { get; private set; }

    public char Separator => separator;

    public TableColumn? this[string name] => columns.GetValueOrDefault(name);

    public bool Has(string name) => columns.ContainsKey(name);

    /// <summary>Finds the head row and what it says; null when the table can't be used.</summary>
    /// <param name="source">The table.</param>
    /// <param name="specs">The known columns.</param>
    /// <param name="aliases">Heads of this file and the known column they stand for.</param>
    /// <param name="electrode">The stated reference electrode.</param>
    /// <param name="needed">What a head row names at least, for the message.</param>
    /// <param name="problems">Collects what is wrong.</param>
    public static OpenTable? TryOpen(
        ITableSource source,
        IReadOnlyList<ColumnSpec> specs,
        IReadOnlyDictionary<string, string> aliases,
        ReferenceElectrode? electrode,
        string needed,
        ProblemList problems
    )
    {
        var best = (Score: 0, Separator: ',', Line: 0);
        foreach (var separator in source.Separators)
        {
            var seen = 0;
            foreach (var row in source.Rows(separator, true, null))
            {
                if (++seen > HeadRows)
                {
                    break;
                }

                if (row.IsBlank || row.IsComment)
                {
                    continue;
                }

                var score = row.Cells.Count(c => Meaning(c, specs, aliases, electrode) is not null);
                var filled = row.Cells.Count(c => c.Length > 0);
                if (score > best.Score && (score >= 2 || score == filled))
                {
                    best = (score, separator, row.Line);
                }
            }
        }

        if (best.Score == 0)
        {
            problems.Add(DiagnosticCatalogue.HeadMissing, null, null, null, HeadRows, needed);
            return null;
        }

        return Open(source, specs, aliases, electrode, problems, best.Separator, best.Line);
    }

    private static TableHead.Meaning? Meaning(
        string cell,
        IReadOnlyList<ColumnSpec> specs,
        IReadOnlyDictionary<string, string> aliases,
        ReferenceElectrode? electrode
    ) =>
        TableHead.Read(
            aliases.GetValueOrDefault(cell.Trim().ToLowerInvariant(), cell),
            specs,
            electrode
        );

    private static OpenTable? Open(
        ITableSource source,
        IReadOnlyList<ColumnSpec> specs,
        IReadOnlyDictionary<string, string> aliases,
        ReferenceElectrode? electrode,
        ProblemList problems,
        char separator,
        int headLine
    )
    {
        string[] heads = [];
        var unitLines = new List<(int Line, string Text)>();
        var titles = new List<string>();
        TableRow? units = null;
        var aboveHead = true;
        foreach (var row in source.Rows(separator, true, null))
        {
            if (aboveHead && row.Line == headLine)
            {
                heads = row.Cells;
                aboveHead = false;
            }
            else if (row.IsComment)
            {
                unitLines.Add((row.Line, string.Join(';', row.Cells)));
            }
            else if (row.IsBlank)
            {
                continue;
            }
            else if (aboveHead)
            {
                var title = string.Join(", ", row.Cells.Where(c => c.Length > 0));
                unitLines.Add((row.Line, string.Join(';', row.Cells)));
                titles.Add(title);
                if (row.NumericCells >= 3)
                {
                    problems.Add(
                        DiagnosticCatalogue.DataAboveHead,
                        row.Line,
                        null,
                        title,
                        headLine
                    );
                }
            }
            else
            {
                units = row;
                break;
            }
        }

        if (
            titles.Count > 0
            && !(titles.Count == 1 && titles[0].StartsWith("sep=", StringComparison.Ordinal))
        )
        {
            problems.Add(
                DiagnosticCatalogue.TitleRows,
                headLine,
                null,
                null,
                titles.Count == 1
                    ? "one row"
                    : titles.Count.ToString(CultureInfo.InvariantCulture) + " rows",
                "'" + string.Join("', '", titles.Take(3)) + "'."
            );
        }

        var columns = new Dictionary<string, TableColumn>(StringComparer.Ordinal);
        var isRemark = new bool[heads.Length];
        var aliased = aliases.Values.Select(TableHead.Snake).ToHashSet(StringComparer.Ordinal);
        for (var i = 0; i < heads.Length; i++)
        {
            AddColumn(
                i,
                heads,
                specs,
                aliases,
                aliased,
                electrode,
                columns,
                isRemark,
                headLine,
                problems
            );
        }

        var unitsLine = 0;
        if (units is { } candidate && IsUnitsRow(candidate, columns))
        {
            unitsLine = candidate.Line;
            foreach (var column in columns.Values.Where(c => TableHead.HasUnit(c.Spec.Kind)))
            {
                var text =
                    column.Index < candidate.Cells.Length ? candidate.Cells[column.Index] : "";
                if (text.Length > 0)
                {
                    column.SetUnit(text, $"in row {unitsLine}", unitsLine, electrode, problems);
                }
            }
        }

        ReadUnitLines(unitLines, columns, electrode, problems);
        foreach (var column in columns.Values.Where(c => c.Spec.Kind == ColumnKind.UnitOf))
        {
            foreach (
                var member in columns.Values.Where(c =>
                    TableHead.HasUnit(c.Spec.Kind) && c.Spec.Group == column.Spec.Group
                )
            )
            {
                if (member.HasUnit)
                {
                    problems.Add(
                        DiagnosticCatalogue.UnitTwice,
                        headLine,
                        member.Head,
                        null,
                        $"the column '{member.Head}'",
                        member.UnitPlace,
                        $"in the column '{column.Head}'"
                    );
                }
                else
                {
                    member.UnitColumn = column;
                }
            }
        }

        var table = new OpenTable(
            source,
            problems,
            separator,
            headLine,
            unitsLine,
            heads,
            columns,
            isRemark
        );
        table.FindDecimalMark();
        return table;
    }

    private static void AddColumn(
        int index,
        string[] heads,
        IReadOnlyList<ColumnSpec> specs,
        IReadOnlyDictionary<string, string> aliases,
        HashSet<string> aliased,
        ReferenceElectrode? electrode,
        Dictionary<string, TableColumn> columns,
        bool[] isRemark,
        int headLine,
        ProblemList problems
    )
    {
        var head = heads[index];
        if (head.Length == 0)
        {
            return;
        }

        var meaning = Meaning(head, specs, aliases, electrode);
        var isAlias = aliases.ContainsKey(head.Trim().ToLowerInvariant());
        if (meaning is not null && !isAlias && aliased.Contains(meaning.Spec.Name))
        {
            // The caller said which column this is; another of the same meaning is then a remark.
            meaning = null;
            isRemark[index] = true;
            problems.Add(
                DiagnosticCatalogue.ColumnNotRead,
                headLine,
                head,
                null,
                head,
                Known(specs)
            );
            return;
        }

        if (meaning is null)
        {
            isRemark[index] = true;
            var snake = TableHead.Snake(head);
            var near = specs
                .Where(s => s.Kind != ColumnKind.Remark)
                .SelectMany(s => s.Names.Select(n => (Spec: s, Distance: NearName(snake, n))))
                .OrderBy(t => t.Distance)
                .First();
            if (near.Distance <= 1 || (near.Distance == 2 && snake.Length >= 6))
            {
                problems.Add(
                    DiagnosticCatalogue.ColumnMisspelt,
                    headLine,
                    head,
                    null,
                    head,
                    near.Spec.Name,
                    near.Spec.Example
                );
            }
            else
            {
                problems.Add(
                    DiagnosticCatalogue.ColumnNotRead,
                    headLine,
                    head,
                    null,
                    head,
                    Known(specs)
                );
            }

            return;
        }

        if (meaning.Spec.Kind == ColumnKind.Remark)
        {
            isRemark[index] = true;
            return;
        }

        if (meaning.UnitProblem is not null && meaning.UnitText.Length > 0)
        {
            // A quantity's name with something behind it that is no unit.
            problems.Add(
                DiagnosticCatalogue.UnitUnknown,
                headLine,
                head,
                meaning.UnitText,
                $"The column '{head}': {meaning.UnitProblem}; rename the column if it is something else than {meaning.Spec.Name}"
            );
            isRemark[index] = true;
        }

        if (columns.TryGetValue(meaning.Spec.Name, out var earlier))
        {
            problems.Add(
                DiagnosticCatalogue.ColumnTwice,
                headLine,
                head,
                null,
                earlier.Head,
                head,
                meaning.Spec.Name
            );
            isRemark[index] = true;
            return;
        }

        var column = new TableColumn(meaning.Spec, index, head, meaning.Extraction);
        if (meaning.UnitText.Length > 0)
        {
            if (meaning.UnitProblem is null)
            {
                column.SetUnit(meaning.UnitText, "in its head", headLine, electrode, problems);
            }
            else
            {
                column.IsBroken = true;
            }
        }

        columns.Add(meaning.Spec.Name, column);
    }

    private static string Known(IReadOnlyList<ColumnSpec> specs) =>
        string.Join(", ", specs.Where(s => s.Kind != ColumnKind.Remark).Select(s => s.Name));

    // Distance of a head to a known name, a unit suffix left aside.
    private static int NearName(string snake, string name)
    {
        var best = NearestName.Distance(snake, name);
        for (
            var at = snake.IndexOf('_', StringComparison.Ordinal);
            at > 0;
            at = snake.IndexOf('_', at + 1)
        )
        {
            if (at >= 3)
            {
                best = Math.Min(best, NearestName.Distance(snake[..at], name));
            }
        }

        return best;
    }

    private static bool IsUnitsRow(TableRow row, Dictionary<string, TableColumn> columns)
    {
        var found = 0;
        foreach (var column in columns.Values.Where(c => TableHead.HasUnit(c.Spec.Kind)))
        {
            var text = column.Index < row.Cells.Length ? row.Cells[column.Index] : "";
            if (text.Length == 0)
            {
                continue;
            }

            if (
                text.Any(char.IsAsciiDigit)
                && !Units.TryFind(column.Spec.Dimension, text, out _, out _)
            )
            {
                return false;
            }

            if (
                column.Spec.Dimension == Dimension.Potential
                    ? Units.TryFind(Dimension.Potential, text.Split(' ', '(')[0], out _, out _)
                    : Units.TryFind(column.Spec.Dimension, text, out _, out _)
                        || text.Trim('(', ')', '[', ']') == "%"
            )
            {
                found++;
            }
        }

        return found > 0;
    }

    // '# units: top in; bottom in; chloride lb/yd3', or the same in a title row.
    private static void ReadUnitLines(
        List<(int Line, string Text)> lines,
        Dictionary<string, TableColumn> columns,
        ReferenceElectrode? electrode,
        ProblemList problems
    )
    {
        foreach (var (line, text) in lines)
        {
            var at = text.IndexOf("units:", StringComparison.OrdinalIgnoreCase);
            if (at < 0)
            {
                continue;
            }

            foreach (
                var part in text[(at + 6)..]
                    .Split(
                        [';', ','],
                        StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
                    )
            )
            {
                var split = part.IndexOfAny(['=', ':', ' ']);
                var name = TableHead.Snake(split < 0 ? part : part[..split]);
                var unit = split < 0 ? "" : part[(split + 1)..].Trim(' ', '=', ':');
                var targets = columns
                    .Values.Where(c =>
                        TableHead.HasUnit(c.Spec.Kind)
                        && (c.Spec.Group == name || c.Spec.Names.Contains(name))
                    )
                    .ToList();
                if (targets.Count == 0)
                {
                    problems.Add(
                        DiagnosticCatalogue.UnitUnknown,
                        line,
                        null,
                        part,
                        $"The units line names '{name}', which is no column of this table: name one of "
                            + string.Join(
                                ", ",
                                columns
                                    .Values.Where(c => TableHead.HasUnit(c.Spec.Kind))
                                    .Select(c => c.Spec.Name)
                            )
                    );
                }

                foreach (var target in targets)
                {
                    target.SetUnit(unit, $"in row {line}", line, electrode, problems);
                }
            }
        }
    }

    private void FindDecimalMark()
    {
        var points = false;
        var commas = false;
        var numeric = columns
            .Values.Where(c => c.Spec.Kind == ColumnKind.Quantity)
            .Select(c => c.Index)
            .ToArray();
        foreach (var row in DataRows(null))
        {
            foreach (var index in numeric)
            {
                if (index < row.Cells.Length)
                {
                    switch (
                        NumberText.Evidence(
                            row.Cells[index].AsSpan().TrimStart("<NDnd ").ToString()
                        )
                    )
                    {
                        case DecimalMark.Point:
                            points = true;
                            break;
                        case DecimalMark.Comma:
                            commas = true;
                            break;
                    }
                }
            }

            if (points && commas)
            {
                break;
            }
        }

        Mark =
            points && commas ? DecimalMark.Mixed
            : points ? DecimalMark.Point
            : commas ? DecimalMark.Comma
            : DecimalMark.Unknown;
        if (Mark == DecimalMark.Mixed)
        {
            Problems.Add(DiagnosticCatalogue.DecimalMarksMixed, null, null, null);
        }
    }

    /// <summary>The data rows; rows that can't be taken apart are reported and passed over.</summary>
    public IEnumerable<TableRow> Rows() => DataRows(Problems);

    private IEnumerable<TableRow> DataRows(ProblemList? problems)
    {
        foreach (var row in source.Rows(separator, false, problems))
        {
            if (row.Line > headLine && row.IsComment && row.NumericCells >= 2)
            {
                problems?.Add(
                    DiagnosticCatalogue.DataInComment,
                    row.Line,
                    null,
                    string.Join(", ", row.Cells)
                );
            }

            if (row.Line <= headLine || row.Line == unitsLine || row.IsComment || row.IsBlank)
            {
                continue;
            }

            if (IsSound(row, problems))
            {
                yield return row;
            }
        }
    }

    private bool IsSound(TableRow row, ProblemList? problems)
    {
        if (row.Malformed is not null)
        {
            problems?.Add(DiagnosticCatalogue.QuotesBroken, row.Line, null, null, row.Malformed);
            return false;
        }

        for (var i = 0; i < row.Cells.Length; i++)
        {
            var cell = row.Cells[i];
            if (cell.Length == 0)
            {
                continue;
            }

            if (i >= heads.Length)
            {
                var hint =
                    separator == ',' && row.Cells.Length >= (2 * heads.Length) - 2
                        ? " Decimal commas? Separate the cells by semicolons, or write decimal points."
                        : "";
                problems?.Add(
                    DiagnosticCatalogue.RowTooLong,
                    row.Line,
                    null,
                    cell,
                    row.Cells.Length,
                    heads.Length,
                    hint
                );
                return false;
            }

            if (heads[i].Length == 0)
            {
                problems?.Add(
                    DiagnosticCatalogue.CellWithoutHead,
                    row.Line,
                    null,
                    cell,
                    cell,
                    i + 1
                );
                return false;
            }

            if (
                cell.AsSpan().ContainsAny('\n', '\r')
                && (!isRemark[i] || cell.Contains(separator, StringComparison.Ordinal))
            )
            {
                problems?.Add(
                    DiagnosticCatalogue.QuotesBroken,
                    row.Line,
                    heads[i],
                    cell,
                    "a cell runs over several lines"
                );
                return false;
            }
        }

        return true;
    }
}
