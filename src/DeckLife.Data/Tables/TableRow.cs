using System.Globalization;

namespace DeckLife.Data.Tables;

/// <summary>One record of a table.</summary>
/// <param name="Line">The line of the file, or row of the sheet, counted from 1.</param>
/// <param name="Cells">The cells as text, trimmed.</param>
/// <param name="Malformed">What is wrong with its quotes, if anything.</param>
internal readonly record struct TableRow(int Line, string[] Cells, string? Malformed)
{
    public bool IsBlank => Malformed is null && Array.TrueForAll(Cells, c => c.Length == 0);

    /// <summary>Whether it starts with #; a core named #1 with its numbers is no comment.</summary>
    public bool IsComment =>
        Cells.Length > 0
        && Cells[0].StartsWith('#')
        && !IsErrorValue(Cells[0])
        && !(Cells[0].Length > 1 && char.IsAsciiDigit(Cells[0][1]) && NumericCells >= 2);

    /// <summary>How many cells after the first are numbers: titles and remarks have none or few.</summary>
    public int NumericCells =>
        Cells
            .Skip(1)
            .Count(c =>
                c.Length is > 0 and < 25
                && double.TryParse(c, NumberStyles.Float, CultureInfo.InvariantCulture, out _)
            );

    // A failed spreadsheet formula is data that went wrong, not a comment.
    private static bool IsErrorValue(string cell) =>
        cell is "#N/A" or "#REF!" or "#DIV/0!" or "#VALUE!" or "#NAME?" or "#NUM!" or "#NULL!";
}
