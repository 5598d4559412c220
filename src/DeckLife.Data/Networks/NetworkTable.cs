using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Data.Tables;
using Parquet;
using Parquet.Schema;

namespace DeckLife.Data.Networks;

/// <summary>A column of words or of numbers, either of which may be missing in a row.</summary>
internal sealed record NetworkColumn(
    string Name,
    ImmutableArray<string?>? Words,
    ImmutableArray<double?>? Numbers
)
{
    /// <summary>Number of rows.</summary>
    public int Rows => Words?.Length ?? Numbers!.Value.Length;
}

/// <summary>A table of results that writes itself as CSV and Parquet.</summary>
internal sealed record NetworkTable(ImmutableArray<NetworkColumn> Columns)
{
    private const int RowsAGroup = 4096;

    /// <summary>Writes CSV: the invariant culture, what is missing empty, no text that can act as a formula.</summary>
    public void WriteCsv(TextWriter output)
    {
        output.Write(string.Join(',', Columns.Select(c => c.Name)));
        output.Write('\n');
        for (var i = 0; i < Columns[0].Rows; i++)
        {
            for (var c = 0; c < Columns.Length; c++)
            {
                if (c > 0)
                {
                    output.Write(',');
                }

                output.Write(
                    Columns[c].Words is { } words
                        ? CsvText.Field(words[i] ?? "")
                        : Columns[c].Numbers!.Value[i]?.ToString("R", CultureInfo.InvariantCulture)
                );
            }

            output.Write('\n');
        }
    }

    /// <summary>Writes Parquet; what is missing stays missing.</summary>
    public async Task WriteParquetAsync(Stream stream, IReadOnlyDictionary<string, string> metadata)
    {
        var fields = Columns
            .Select(c =>
                c.Words is not null
                    ? new DataField<string>(c.Name)
                    : (DataField)new DataField<double?>(c.Name)
            )
            .ToArray();
        var writer = await ParquetWriter
            .CreateAsync(new ParquetSchema(fields), stream)
            .ConfigureAwait(false);
        await using (writer.ConfigureAwait(false))
        {
            writer.CustomMetadata = metadata;
            for (var from = 0; from < Columns[0].Rows; from += RowsAGroup)
            {
                var rows = Math.Min(RowsAGroup, Columns[0].Rows - from);
                using var group = writer.CreateRowGroup();
                for (var c = 0; c < fields.Length; c++)
                {
                    if (Columns[c].Words is { } words)
                    {
                        await group
                            .WriteAsync(fields[c], [.. words.AsSpan(from, rows)])
                            .ConfigureAwait(false);
                    }
                    else
                    {
                        double?[] numbers = [.. Columns[c].Numbers!.Value.AsSpan(from, rows)];
                        await group
                            .WriteAsync<double>(fields[c], numbers.AsMemory())
                            .ConfigureAwait(false);
                    }
                }
            }
        }
    }
}
