using DeckLife.Data.Workbooks;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Tables;

/// <summary>Opens a file as a table: text, or a sheet of a workbook.</summary>
internal static class TableSources
{
    public static ITableSource? Open(
        string name,
        ReadOnlyMemory<byte> content,
        string table,
        ProblemList problems
    )
    {
        if (content.Length == 0)
        {
            problems.Add(DiagnosticCatalogue.FileNotText, null, null, null, name, "it is empty.");
            return null;
        }

        if (name.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase))
        {
            if (WorkbookFile.Open(content, problems) is not { } workbook)
            {
                return null;
            }

            if (workbook.Sheet(table, anyOnly: true) is { } sheet)
            {
                return sheet;
            }

            problems.Add(
                DiagnosticCatalogue.FileMissing,
                null,
                null,
                null,
                $"the sheet '{table}'",
                $"the workbook has {string.Join(", ", workbook.Sheets.Take(20).Select(s => $"'{s}'"))}. Name the sheet {table}."
            );
            return null;
        }

        return TextDecoding.TryToUtf8(content, problems, out var utf8)
            ? new DelimitedSource(utf8)
            : null;
    }
}
