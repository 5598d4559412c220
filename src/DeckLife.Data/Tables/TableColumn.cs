using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>A column of a table, with the unit that its cells are in.</summary>
internal sealed class TableColumn(
    ColumnSpec spec,
    int index,
    string head,
    ChlorideExtraction extraction
)
{
    private Unit? unit;
    private PotentialUnit? potential;

    public ColumnSpec Spec => spec;

    public int Index => index;

    public string Head => head;

    public ChlorideExtraction Extraction => extraction;

    public TableColumn? UnitColumn { get; set; }

    /// <summary>Whether its head could not be understood, which has been reported.</summary>
    public bool IsBroken { get; set; }

    public bool HasUnit => unit is not null || potential is not null;

    public string UnitPlace { get; private set; } = "";

    public Unit? Unit => unit ?? potential?.Unit;

    public void SetUnit(
        string text,
        string place,
        int row,
        ReferenceElectrode? electrode,
        ProblemList problems
    )
    {
        if (IsBroken)
        {
            return;
        }

        if (HasUnit)
        {
            problems.Add(
                DiagnosticCatalogue.UnitTwice,
                row,
                head,
                text,
                $"the column '{head}'",
                UnitPlace,
                place
            );
            IsBroken = true;
            return;
        }

        string? problem;
        if (
            spec.Dimension == Dimension.Potential
                ? PotentialUnit.TryFind(text, electrode, out potential, out problem)
                : Units.TryFind(spec.Dimension, text, out unit, out problem)
        )
        {
            UnitPlace = place;
            return;
        }

        problems.Add(
            DiagnosticCatalogue.UnitUnknown,
            row,
            head,
            text,
            $"The column '{head}': {problem}"
        );
        IsBroken = true;
    }

    public string Text(TableRow row) => index < row.Cells.Length ? row.Cells[index] : "";

    /// <summary>The number of a cell with its unit; a problem is reported, and false returned.</summary>
    public bool TryMeasure(
        OpenTable table,
        TableRow row,
        string text,
        ReferenceElectrode? electrode,
        out double number,
        [NotNullWhen(true)] out Unit? cellUnit,
        out PotentialUnit? cellPotential
    )
    {
        number = 0;
        cellUnit = null;
        cellPotential = null;
        if (IsBroken)
        {
            return false;
        }

        var problems = table.Problems;
        var numberText = text;
        if (HasUnit)
        {
            cellUnit = Unit!;
            cellPotential = potential;
        }
        else if (
            !TryUnitOfRow(problems, row, electrode, ref cellUnit, ref cellPotential, out var stated)
        )
        {
            return false;
        }
        else if (!stated)
        {
            var (n, u) = QuantityText.Split(text);
            if (u.Length == 0)
            {
                if (NumberText.TryParse(n, table.Mark, true, out _, out _))
                {
                    problems.AddOnce(
                        DiagnosticCatalogue.UnitMissing,
                        row.Line,
                        head,
                        text,
                        text,
                        $"the column '{head}'",
                        spec.Example
                    );
                }
                else
                {
                    Unreadable(table, row, text, text);
                }

                return false;
            }

            if (!TryUnit(u, electrode, ref cellUnit, ref cellPotential, out var why))
            {
                problems.Add(
                    DiagnosticCatalogue.UnitUnknown,
                    row.Line,
                    head,
                    text,
                    $"'{text}' in the column '{head}': {why}"
                );
                return false;
            }

            numberText = n;
        }

        var fraction = cellUnit!.Name is "in" or "ft";
        if (NumberText.TryParse(numberText, table.Mark, fraction, out number, out _))
        {
            return true;
        }

        Unit? second = null;
        PotentialUnit? secondPotential = null;
        var (first, rest) = QuantityText.Split(numberText);
        if (
            first.Length > 0
            && rest.Length > 0
            && (
                TryUnit(rest, electrode, ref second, ref secondPotential, out _)
                || (
                    spec.Dimension == Dimension.Potential
                    && Units.TryFind(Dimension.Potential, rest.Split(' ')[0], out _, out _)
                )
            )
        )
        {
            problems.Add(
                DiagnosticCatalogue.UnitTwice,
                row.Line,
                head,
                text,
                $"'{text}' in the column '{head}'",
                UnitPlace.Length > 0 ? UnitPlace : $"in the column '{UnitColumn?.Head}'",
                "beside the number"
            );
            return false;
        }

        Unreadable(table, row, text, numberText);
        return false;
    }

    private void Unreadable(OpenTable table, TableRow row, string text, string numberText)
    {
        var fraction = Unit is null || Unit.Name is "in" or "ft";
        NumberText.TryParse(numberText, table.Mark, fraction, out _, out var problem);
        if (problem is not null && problem.StartsWith("it is a date", StringComparison.Ordinal))
        {
            table.Problems.Add(
                DiagnosticCatalogue.NumberBecameDate,
                row.Line,
                head,
                text,
                text,
                "a date",
                $"a number for {spec.Name}"
            );
            return;
        }

        table.Problems.Add(
            DiagnosticCatalogue.ValueUnreadable,
            row.Line,
            head,
            text,
            text,
            problem ?? "it is not a number"
        );
    }

    /// <summary>Says that a value is beyond what is possible, or that it is the serial number of a date.</summary>
    public void Impossible(
        ProblemList problems,
        TableRow row,
        string text,
        double number,
        string allowed
    )
    {
        if (number is >= 25000 and <= 75000 && number == Math.Floor(number))
        {
            var date = new DateOnly(1899, 12, 30).AddDays((int)number);
            problems.Add(
                DiagnosticCatalogue.NumberBecameDate,
                row.Line,
                head,
                text,
                text,
                $"a spreadsheet's serial number of the date {date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}",
                $"a possible {spec.Name} ({allowed})"
            );
            return;
        }

        problems.Add(
            DiagnosticCatalogue.ValueImpossible,
            row.Line,
            head,
            text,
            head,
            text,
            allowed
        );
    }

    private bool TryUnitOfRow(
        ProblemList problems,
        TableRow row,
        ReferenceElectrode? electrode,
        ref Unit? cellUnit,
        ref PotentialUnit? cellPotential,
        out bool stated
    )
    {
        stated = false;
        if (UnitColumn is null)
        {
            return true;
        }

        stated = true;
        var text = UnitColumn.Text(row);
        if (TryUnit(text, electrode, ref cellUnit, ref cellPotential, out var why))
        {
            return true;
        }

        problems.Add(
            text.Length == 0 ? DiagnosticCatalogue.UnitMissing : DiagnosticCatalogue.UnitUnknown,
            row.Line,
            UnitColumn.Head,
            text,
            text.Length == 0
                ? [Text(row), $"the column '{head}'", spec.Example]
                : [$"In this row {why}"]
        );
        return false;
    }

    private bool TryUnit(
        string text,
        ReferenceElectrode? electrode,
        ref Unit? cellUnit,
        ref PotentialUnit? cellPotential,
        [NotNullWhen(false)] out string? why
    )
    {
        if (spec.Dimension == Dimension.Potential)
        {
            if (PotentialUnit.TryFind(text, electrode, out cellPotential, out why))
            {
                cellUnit = cellPotential.Unit;
                return true;
            }

            return false;
        }

        return Units.TryFind(spec.Dimension, text, out cellUnit, out why);
    }
}
