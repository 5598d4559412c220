using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>The folder of a study's results: JSON, CSV, Parquet and the side file that describes columns and units.</summary>
public static class StudyFolder
{
    /// <summary>Names of the files that a whole study writes.</summary>
    public static IReadOnlyList<string> FileNames { get; } =
    ["study.json", "results.csv", "results.parquet", "columns.json", "draws.csv", "draws.parquet"];

    /// <summary>Writes all files, each whole or not at all; the folder is made where it is not there.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="result">The results.</param>
    /// <param name="provenance">Where they come from.</param>
    public static async Task WriteAsync(
        string folder,
        StudyResult result,
        StudyProvenance provenance
    )
    {
        ArgumentNullException.ThrowIfNull(result);
        Directory.CreateDirectory(folder);
        string In(string name) => Path.Combine(folder, name);
        Task Text(string name, string text) => WholeFile.WriteTextAsync(In(name), text);
        await Text("study.json", StudyWriter.ToJson(result, provenance)).ConfigureAwait(false);
        await Text("results.csv", StudyWriter.ToCsv(result, provenance)).ConfigureAwait(false);
        await Text("columns.json", StudyWriter.ColumnsToJson(result.Study, provenance))
            .ConfigureAwait(false);
        await WholeFile
            .WriteAsync(
                In("results.parquet"),
                stream => StudyResultsParquet.WriteAsync(result, provenance, stream)
            )
            .ConfigureAwait(false);
        var kept = result
            .Study.Methods.OfType<MonteCarloMethod>()
            .Select(m => m.Kept)
            .DefaultIfEmpty()
            .Max();
        if (kept > 0)
        {
            await WholeFile
                .WriteAsync(
                    In("draws.csv"),
                    stream => WriteDrawsAsync(stream, result, kept, provenance)
                )
                .ConfigureAwait(false);
            await WholeFile
                .WriteAsync(
                    In("draws.parquet"),
                    stream =>
                        StudyDrawsWriter.WriteParquetAsync(result.Study, kept, provenance, stream)
                )
                .ConfigureAwait(false);
        }
    }

    private static async Task WriteDrawsAsync(
        Stream stream,
        StudyResult result,
        int kept,
        StudyProvenance provenance
    )
    {
        var csv = new StreamWriter(stream, leaveOpen: true);
        await using (csv.ConfigureAwait(false))
        {
            StudyDrawsWriter.WriteCsv(result.Study, kept, provenance, csv);
        }
    }
}
