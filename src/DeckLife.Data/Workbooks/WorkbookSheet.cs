using System.Globalization;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using ExcelDataReader;

namespace DeckLife.Data.Workbooks;

/// <summary>A sheet of a workbook as a table.</summary>
internal sealed class WorkbookSheet(byte[] content, int sheet) : ITableSource
{
    private const int HeadRows = 200;
    private const int MostCells = 4096;

    public IReadOnlyList<char> Separators { get; } = ['\t'];

    public IEnumerable<TableRow> Rows(char separator, bool headOnly, ProblemList? problems)
    {
        using var reader = WorkbookFile.Reader(content);
        for (var i = 0; i < sheet; i++)
        {
            reader.NextResult();
        }

        var line = 0;
        while (!headOnly || line < HeadRows)
        {
            var row = Next(reader, ++line, problems);
            if (row is null)
            {
                yield break;
            }

            yield return row.Value;
        }
    }

    private static TableRow? Next(IExcelDataReader reader, int line, ProblemList? problems)
    {
        try
        {
            if (!reader.Read())
            {
                return null;
            }

            var last = Math.Min(reader.FieldCount, MostCells) - 1;
            while (last >= 0 && reader.GetValue(last) is null)
            {
                last--;
            }

            var cells = new string[last + 1];
            for (var i = 0; i <= last; i++)
            {
                cells[i] = Text(reader, i);
            }

            return new TableRow(
                line,
                cells,
                reader.FieldCount > MostCells ? $"the sheet has {reader.FieldCount} columns" : null
            );
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            problems?.Add(
                DiagnosticCatalogue.FileUnreadable,
                line,
                null,
                null,
                problems.File,
                $"the sheet breaks off in row {line}."
            );
            return null;
        }
    }

    private static string Text(IExcelDataReader reader, int index) =>
        reader.GetValue(index) switch
        {
            null => "",
            double number => number.ToString("R", CultureInfo.InvariantCulture),
            DateTime { TimeOfDay.Ticks: 0 } day => day.ToString(
                "yyyy-MM-dd",
                CultureInfo.InvariantCulture
            ),
            DateTime time => time.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture),
            bool flag => flag ? "yes" : "no",
            var other => Convert.ToString(other, CultureInfo.InvariantCulture)?.Trim() ?? "",
        };
}
