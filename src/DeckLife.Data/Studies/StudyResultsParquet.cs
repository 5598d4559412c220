using DeckLife.Studies;
using Parquet;
using Parquet.Schema;

namespace DeckLife.Data.Studies;

/// <summary>Writes the result rows as Parquet, the same as in CSV; missing numbers stay missing.</summary>
public static class StudyResultsParquet
{
    /// <summary>Writes the rows.</summary>
    /// <param name="result">The results.</param>
    /// <param name="provenance">Where they come from; it is in the file's own metadata.</param>
    /// <param name="stream">Receives the file; must be able to seek.</param>
    public static async Task WriteAsync(
        StudyResult result,
        StudyProvenance provenance,
        Stream stream
    )
    {
        ArgumentNullException.ThrowIfNull(result);
        var rows = StudyTable.Rows(result);
        var heads = StudyWriter.Heads;
        DataField Text(int i) => new DataField<string>(heads[i], false);
        var number = new DataField<long>(heads[0]);
        DataField[] texts = [Text(1), Text(2), Text(3), Text(4), Text(5)];
        DataField[] values =
        [
            new DataField<double?>(heads[6]),
            new DataField<double?>(heads[7]),
            new DataField<double?>(heads[8]),
        ];
        var samples = new DataField<long>(heads[9]);
        var remark = Text(10);
        var schema = new ParquetSchema([number, .. texts, .. values, samples, remark]);
        var writer = await ParquetWriter.CreateAsync(schema, stream).ConfigureAwait(false);
        await using (writer.ConfigureAwait(false))
        {
            writer.CustomMetadata = StudyDrawsWriter.Metadata(result.Study, provenance);
            using var group = writer.CreateRowGroup();
            async Task Whole(DataField field, Func<StudyRow, long> of) =>
                await group
                    .WriteAsync<long>(field, rows.Select(of).ToArray().AsMemory())
                    .ConfigureAwait(false);
            async Task Words(DataField field, Func<StudyRow, string> of) =>
                await group.WriteAsync(field, rows.Select(of).ToArray()).ConfigureAwait(false);
            async Task Numbers(DataField field, Func<StudyRow, double?> of) =>
                await group
                    .WriteAsync<double>(field, rows.Select(of).ToArray().AsMemory())
                    .ConfigureAwait(false);
            await Whole(number, r => r.MethodNumber).ConfigureAwait(false);
            await Words(texts[0], r => r.Method).ConfigureAwait(false);
            await Words(texts[1], r => r.Output).ConfigureAwait(false);
            await Words(texts[2], r => r.Input).ConfigureAwait(false);
            await Words(texts[3], r => r.Quantity).ConfigureAwait(false);
            await Words(texts[4], r => r.Unit).ConfigureAwait(false);
            await Numbers(values[0], r => r.Value).ConfigureAwait(false);
            await Numbers(values[1], r => r.Lower).ConfigureAwait(false);
            await Numbers(values[2], r => r.Upper).ConfigureAwait(false);
            await Whole(samples, r => r.Samples).ConfigureAwait(false);
            await Words(remark, r => r.Remark).ConfigureAwait(false);
        }
    }
}
