using DeckLife.Diagnostics;

namespace DeckLife.Data.Json;

/// <summary>Writes which reports were made as JSON.</summary>
public static class ReportListJson
{
    /// <summary>Writes <c>{ "reports": [ { folder, status, files, problems } ], "index": "..." }</c>; without a list of several decks, <c>index</c> is left out.</summary>
    /// <param name="reports">The reports, in the order asked for.</param>
    /// <param name="index">The file that lists them; absent: there is none.</param>
    public static string Write(IEnumerable<ReportListEntry> reports, string? index)
    {
        ArgumentNullException.ThrowIfNull(reports);
        return JsonText.Object(writer =>
        {
            writer.WriteStartArray("reports");
            foreach (var report in reports)
            {
                writer.WriteStartObject();
                writer.WriteString("folder", report.Folder);
                writer.WriteString("status", report.Status);
                writer.WriteStartArray("files");
                foreach (var file in report.Files)
                {
                    writer.WriteStringValue(file);
                }

                writer.WriteEndArray();
                ProblemsJson.Write(writer, report.Problems);
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
            if (index is not null)
            {
                writer.WriteString("index", index);
            }
        });
    }
}
