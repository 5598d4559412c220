using System.IO.Compression;
using System.Text;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using ExcelDataReader;

namespace DeckLife.Data.Workbooks;

/// <summary>An .xlsx workbook: one sheet a table. Guards against archives that unpack without end.</summary>
internal sealed class WorkbookFile
{
    private const long MostPackedBytes = 64L << 20;
    private const long MostUnpackedBytes = 64L << 20;
    private const int MostEntries = 2000;

    private readonly byte[] content;

    private WorkbookFile(byte[] content, IReadOnlyList<string> sheets)
    {
        this.content = content;
        Sheets = sheets;
    }

    /// <summary>Names of the sheets.</summary>
    public IReadOnlyList<string> Sheets { get; }

    /// <summary>Whether the bytes are a zip archive, as .xlsx workbooks are.</summary>
    public static bool IsArchive(ReadOnlySpan<byte> bytes) => bytes.StartsWith("PK\u0003\u0004"u8);

    public static WorkbookFile? Open(ReadOnlyMemory<byte> bytes, ProblemList problems)
    {
        if (bytes.Length > MostPackedBytes)
        {
            problems.AddTooLarge($"{MostPackedBytes >> 20} MB of a workbook");
            return null;
        }

        var content = bytes.ToArray();
        try
        {
            if (!FitsUnpacked(content))
            {
                problems.AddTooLarge(
                    $"{MostUnpackedBytes >> 20} MB of a workbook unpacked, in {MostEntries} parts,"
                );
                return null;
            }

            using var reader = Reader(content);
            var sheets = new List<string>();
            do
            {
                sheets.Add(reader.Name ?? "");
            } while (reader.NextResult());
            return new WorkbookFile(content, sheets);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // A broken archive surfaces as one of a dozen exceptions of the archive, XML and workbook readers.
            problems.Add(
                DiagnosticCatalogue.FileUnreadable,
                null,
                null,
                null,
                problems.File,
                "it is not a sound .xlsx workbook."
            );
            return null;
        }
    }

    /// <summary>The sheet that holds a table, by its name; the only sheet where there is but one and any may serve.</summary>
    public ITableSource? Sheet(string table, bool anyOnly)
    {
        var key = Key(table);
        for (var i = 0; i < Sheets.Count; i++)
        {
            if (Key(Sheets[i]) == key)
            {
                return new WorkbookSheet(content, i);
            }
        }

        return anyOnly && Sheets.Count == 1 ? new WorkbookSheet(content, 0) : null;
    }

    /// <summary>Opens the workbook anew.</summary>
    public static IExcelDataReader Reader(byte[] content)
    {
        // The package asks for code page 1252 in its settings, though .xlsx is UTF-8 throughout.
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        return ExcelReaderFactory.CreateOpenXmlReader(new MemoryStream(content));
    }

    // 'Half-cell', 'half cell' and 'Half_Cells' are one name.
    private static string Key(string name) =>
        string.Concat(name.Where(char.IsLetter)).ToUpperInvariant().TrimEnd('S');

    // The sizes in an archive's directory may lie: everything is unpacked once, counting.
    private static bool FitsUnpacked(byte[] content)
    {
        using var archive = new ZipArchive(new MemoryStream(content), ZipArchiveMode.Read);
        if (archive.Entries.Count > MostEntries)
        {
            return false;
        }

        long total = 0;
        var buffer = new byte[1 << 16];
        foreach (var entry in archive.Entries)
        {
            using var stream = entry.Open();
            int read;
            while ((read = stream.Read(buffer)) > 0)
            {
                total += read;
                if (total > MostUnpackedBytes)
                {
                    return false;
                }
            }
        }

        return true;
    }
}
