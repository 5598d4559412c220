namespace DeckLife.Data.Tables;

/// <summary>A table that can be gone through more than once.</summary>
internal interface ITableSource
{
    /// <summary>Candidates for the division into cells: one for a sheet, one for each separator for text.</summary>
    IReadOnlyList<char> Separators { get; }

    /// <summary>The rows, streamed.</summary>
    /// <param name="separator">One of <see cref="Separators"/>.</param>
    /// <param name="headOnly">Whether only the start of the table is needed.</param>
    /// <param name="problems">Where to report what ends the reading early; absent: silently.</param>
    IEnumerable<TableRow> Rows(char separator, bool headOnly, ProblemList? problems);
}
