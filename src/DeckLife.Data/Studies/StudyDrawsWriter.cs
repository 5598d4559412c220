using System.Globalization;
using DeckLife.Studies;
using Parquet;
using Parquet.Schema;

namespace DeckLife.Data.Studies;

/// <summary>Writes the draws that a study keeps, slice by slice, as CSV and Parquet; what was not reached stays missing.</summary>
public static class StudyDrawsWriter
{
    /// <summary>Writes the draws as CSV.</summary>
    /// <param name="study">The study.</param>
    /// <param name="kept">Number of draws, from the first on.</param>
    /// <param name="provenance">Where they come from.</param>
    /// <param name="writer">Receives the text.</param>
    public static void WriteCsv(
        StudyDefinition study,
        int kept,
        StudyProvenance provenance,
        TextWriter writer
    )
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(writer);
        writer.Write(StudyWriter.CsvHead(provenance));
        writer.Write("draw," + string.Join(',', Names(study)) + "\n");
        foreach (var (first, count, inputs, outputs) in Slices(study, kept))
        {
            for (var i = 0; i < count; i++)
            {
                writer.Write((first + i).ToString(CultureInfo.InvariantCulture));
                foreach (var column in inputs.Concat(outputs))
                {
                    writer.Write(',');
                    writer.Write(StudyWriter.Number(column[i]));
                }

                writer.Write('\n');
            }
        }
    }

    /// <summary>Writes the draws as Parquet, a row group for each 2048 (128 of a deck); the provenance is in the file's own metadata.</summary>
    /// <param name="study">The study.</param>
    /// <param name="kept">Number of draws, from the first on.</param>
    /// <param name="provenance">Where they come from.</param>
    /// <param name="stream">Receives the file; must be able to seek.</param>
    public static async Task WriteParquetAsync(
        StudyDefinition study,
        int kept,
        StudyProvenance provenance,
        Stream stream
    )
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(provenance);
        var number = new DataField<long>("draw");
        var inputs = study.Drawn.Select(i => new DataField<double>(i.Name)).ToArray();
        var outputs = study.Outputs.Select(o => new DataField<double?>(o.Name)).ToArray();
        var schema = new ParquetSchema([number, .. inputs, .. outputs]);
        var writer = await ParquetWriter.CreateAsync(schema, stream).ConfigureAwait(false);
        await using (writer.ConfigureAwait(false))
        {
            writer.CustomMetadata = Metadata(study, provenance);
            foreach (var (first, count, drawn, computed) in Slices(study, kept))
            {
                using var group = writer.CreateRowGroup();
                long[] numbers = [.. Enumerable.Range(0, count).Select(i => first + i)];
                await group.WriteAsync<long>(number, numbers.AsMemory()).ConfigureAwait(false);
                for (var d = 0; d < inputs.Length; d++)
                {
                    await group
                        .WriteAsync<double>(inputs[d], drawn[d].AsMemory(0, count))
                        .ConfigureAwait(false);
                }

                for (var o = 0; o < outputs.Length; o++)
                {
                    double?[] values =
                    [
                        .. computed[o]
                            .Take(count)
                            .Select(v => double.IsFinite(v) ? v : (double?)null),
                    ];
                    await group
                        .WriteAsync<double>(outputs[o], values.AsMemory())
                        .ConfigureAwait(false);
                }
            }
        }
    }

    internal static Dictionary<string, string> Metadata(
        StudyDefinition study,
        StudyProvenance provenance
    )
    {
        var metadata = new Dictionary<string, string>
        {
            ["decklife.version"] = provenance.Version,
            ["decklife.seed"] = provenance.Seed.ToString(CultureInfo.InvariantCulture),
            ["decklife.study.file"] = provenance.File,
            ["decklife.study.sha256"] = provenance.Sha256,
        };
        foreach (var file in provenance.DeckFiles)
        {
            metadata[$"decklife.deck.{file.Name}.sha256"] = file.Sha256;
        }

        foreach (var input in study.Drawn)
        {
            metadata[$"unit.{input.Name}"] = input.Unit;
        }

        foreach (var output in study.Outputs)
        {
            metadata[$"unit.{output.Name}"] = output.Unit;
        }

        return metadata;
    }

    private static IEnumerable<string> Names(StudyDefinition study) =>
        study.Drawn.Select(i => i.Name).Concat(study.Outputs.Select(o => o.Name));

    // The draws are made again from the seed, not stored.
    private static IEnumerable<(
        long First,
        int Count,
        double[][] Inputs,
        double[][] Outputs
    )> Slices(StudyDefinition study, int kept)
    {
        var draws = new StudyDraws(study);
        var inputs = StudyDraws.Buffers(draws.Inputs);
        var outputs = StudyDraws.Buffers(draws.Outputs);
        for (long first = 0; first < kept; first += draws.SliceSize)
        {
            var count = (int)Math.Min(draws.SliceSize, kept - first);
            draws.Fill(first / draws.SliceSize, count, inputs, outputs);
            yield return (first, count, inputs, outputs);
        }
    }
}
