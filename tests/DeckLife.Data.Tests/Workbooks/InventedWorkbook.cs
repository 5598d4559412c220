using System.Globalization;
using System.IO.Compression;
using System.Security;
using System.Text;

namespace DeckLife.Data.Tests.Workbooks;

/// <summary>Writes small .xlsx workbooks (ECMA-376) for tests: numbers, texts, dates.</summary>
internal static class InventedWorkbook
{
    public static byte[] Write(params (string Sheet, object?[][] Rows)[] sheets)
    {
        using var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, true))
        {
            Add(
                archive,
                "[Content_Types].xml",
                "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"><Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/><Default Extension=\"xml\" ContentType=\"application/xml\"/><Override PartName=\"/xl/workbook.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml\"/></Types>"
            );
            Add(
                archive,
                "_rels/.rels",
                "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"rId1\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"
            );
            Add(
                archive,
                "xl/workbook.xml",
                "<workbook xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\" xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><sheets>"
                    + string.Concat(
                        sheets.Select(
                            (s, i) =>
                                $"<sheet name=\"{SecurityElement.Escape(s.Sheet)}\" sheetId=\"{i + 1}\" r:id=\"rId{i + 1}\"/>"
                        )
                    )
                    + "</sheets></workbook>"
            );
            Add(
                archive,
                "xl/_rels/workbook.xml.rels",
                "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
                    + string.Concat(
                        sheets.Select(
                            (_, i) =>
                                $"<Relationship Id=\"rId{i + 1}\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet\" Target=\"worksheets/sheet{i + 1}.xml\"/>"
                        )
                    )
                    + "<Relationship Id=\"rId99\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles\" Target=\"styles.xml\"/></Relationships>"
            );

            // Style 1 is the built-in date format 14.
            Add(
                archive,
                "xl/styles.xml",
                "<styleSheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><fonts count=\"1\"><font/></fonts><fills count=\"1\"><fill/></fills><borders count=\"1\"><border/></borders><cellStyleXfs count=\"1\"><xf/></cellStyleXfs><cellXfs count=\"2\"><xf numFmtId=\"0\"/><xf numFmtId=\"14\" applyNumberFormat=\"1\"/></cellXfs></styleSheet>"
            );
            for (var i = 0; i < sheets.Length; i++)
            {
                Add(archive, $"xl/worksheets/sheet{i + 1}.xml", Sheet(sheets[i].Rows));
            }
        }

        return stream.ToArray();
    }

    private static string Sheet(object?[][] rows)
    {
        var xml = new StringBuilder(
            "<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData>"
        );
        for (var r = 0; r < rows.Length; r++)
        {
            xml.Append(CultureInfo.InvariantCulture, $"<row r=\"{r + 1}\">");
            for (var c = 0; c < rows[r].Length; c++)
            {
                var at = $"{(char)('A' + c)}{r + 1}";
                xml.Append(
                    rows[r][c] switch
                    {
                        null => "",
                        DateOnly date => string.Create(
                            CultureInfo.InvariantCulture,
                            $"<c r=\"{at}\" s=\"1\"><v>{date.DayNumber - new DateOnly(1899, 12, 30).DayNumber}</v></c>"
                        ),
                        double or int => string.Create(
                            CultureInfo.InvariantCulture,
                            $"<c r=\"{at}\"><v>{rows[r][c]}</v></c>"
                        ),
                        var text =>
                            $"<c r=\"{at}\" t=\"inlineStr\"><is><t>{SecurityElement.Escape(text.ToString())}</t></is></c>",
                    }
                );
            }

            xml.Append("</row>");
        }

        return xml.Append("</sheetData></worksheet>").ToString();
    }

    private static void Add(ZipArchive archive, string name, string content)
    {
        using var writer = new StreamWriter(archive.CreateEntry(name).Open());
        writer.Write(content);
    }
}
