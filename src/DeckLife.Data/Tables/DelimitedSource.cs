using CsvHelper;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Tables;

/// <summary>A text table: UTF-8 bytes with commas, semicolons or tabs.</summary>
internal sealed class DelimitedSource(ReadOnlyMemory<byte> utf8) : ITableSource
{
    private const int LargestRecord = 1 << 18;
    private const int MostCells = 4096;
    private const int HeadBytes = 1 << 16;

    public IReadOnlyList<char> Separators { get; } = [',', ';', '\t'];

    public IEnumerable<TableRow> Rows(char separator, bool headOnly, ProblemList? problems)
    {
        var content = headOnly ? Head() : utf8;
        string? malformed = null;
        var options = CsvReaderOptions.Default with
        {
            Separator = separator,
            HasHeader = false,
            TrackLineNumbers = true,
            TrimWhitespace = true,
            MaxRecordSize = LargestRecord,
            PoolStrings = true,
            DetectSeparatorHint = false,
            OnMalformedRecord = record =>
            {
                // A quote in the middle of a cell is an inch sign: 1-1/4"
                if (record.Reason != CsvMalformedReason.StrayQuote)
                {
                    malformed =
                        record.Reason == CsvMalformedReason.UnterminatedQuote
                            ? "a quote is never closed"
                            : "text follows a closing quote";
                }
            },
        };
        using var reader = CsvReader.Create(content, options);
        while (true)
        {
            malformed = null;
            if (!TryRead(reader, problems, out var more))
            {
                yield break;
            }

            if (!more)
            {
                yield break;
            }

            var line = (int)Math.Min(reader.LineNumber, int.MaxValue);
            var cells = new string[Math.Min(reader.FieldCount, MostCells)];
            for (var i = 0; i < cells.Length; i++)
            {
                cells[i] = reader.GetString(i);
            }

            if (reader.FieldCount > MostCells)
            {
                malformed = $"the row has {reader.FieldCount} cells";
            }

            yield return new TableRow(line, cells, malformed);
        }
    }

    private ReadOnlyMemory<byte> Head()
    {
        if (utf8.Length <= HeadBytes)
        {
            return utf8;
        }

        var end = utf8.Span[..HeadBytes].LastIndexOf((byte)'\n');
        return utf8[..(end < 0 ? HeadBytes : end)];
    }

    private static bool TryRead(CsvReader reader, ProblemList? problems, out bool more)
    {
        more = false;
        try
        {
            more = reader.Read();
            return true;
        }
        catch (Exception e)
            when (e is CsvFormatException or InvalidDataException or FormatException)
        {
            problems?.Add(
                DiagnosticCatalogue.QuotesBroken,
                (int)Math.Min(Math.Max(reader.LineNumber, 1), int.MaxValue),
                null,
                null,
                "a record is longer than 256 kB"
            );
            return false;
        }
    }
}
