using DeckLife.Diagnostics;

namespace DeckLife.Data.Tables;

/// <summary>Opens a file as a table, by its ending: text or workbook.</summary>
internal static class TableSources
{
    public static ITableSource? Open(
        string name,
        ReadOnlyMemory<byte> content,
        string sheet,
        ProblemList problems
    )
    {
        if (content.Length == 0)
        {
            problems.Add(DiagnosticCatalogue.FileNotText, null, null, null, name, "it is empty.");
            return null;
        }

        return TextDecoding.TryToUtf8(content, problems, out var utf8)
            ? new DelimitedSource(utf8)
            : null;
    }
}
