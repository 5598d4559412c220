using System.Collections.Immutable;
using System.Runtime.InteropServices;
using DeckLife.Network.Decks;
using Parquet;
using Parquet.Schema;

namespace DeckLife.Data.Networks;

/// <summary>A shard of a network: decks with all their options as Parquet, one row an option, a row group for each few decks.</summary>
/// <remarks>
/// A deck without an answer is one row with its reason and option −1. Costs are 64-bit and damaged shares [millionths] 32-bit whole
/// numbers, low byte first: costs one a year of the program; shares draw by draw, for each draw one a year of the condition.
/// </remarks>
internal static class NetworkShardFile
{
    /// <summary>Decks in one row group: what is in memory at a time.</summary>
    public const int DecksAtOnce = 8;

    private const string KeyName = "decklife.network.shard";
    private const string SumName = "decklife.network.sum";

    private static readonly DataField<int> Index = new("deck");
    private static readonly DataField<string> Folder = new("folder", false);
    private static readonly DataField<string> Name = new("name", false);
    private static readonly DataField<string> Failure = new("failure", false);
    private static readonly DataField<long> Area = new("area_dm2");
    private static readonly DataField<int> Survey = new("survey_year");
    private static readonly DataField<string> Evidence = new("evidence", false);
    private static readonly DataField<string> Remarks = new("remarks", false);
    private static readonly DataField<string> Prices = new("prices", false);
    private static readonly DataField<int> Option = new("option");
    private static readonly DataField<string> Strategy = new("strategy", false);
    private static readonly DataField<int> Start = new("start_year");
    private static readonly DataField<byte[]> Cost = new("cost_by_year", false);
    private static readonly DataField<byte[]> Damaged = new("damaged_ppm", false);

    // A column can be read or written only once it belongs to a schema: made here, before either.
    private static readonly ParquetSchema Schema = new(
        Index,
        Folder,
        Name,
        Failure,
        Area,
        Survey,
        Evidence,
        Remarks,
        Prices,
        Option,
        Strategy,
        Start,
        Cost,
        Damaged
    );

    /// <summary>Writes a shard, whole or not at all.</summary>
    /// <param name="path">The shard.</param>
    /// <param name="key">Fingerprint of what it rests on.</param>
    /// <param name="batches">Its decks in order, a row group each.</param>
    public static async Task WriteAsync(
        string path,
        string key,
        IEnumerable<IReadOnlyList<DeckRecord>> batches
    )
    {
        await WholeFile
            .WriteAsync(
                path,
                async stream =>
                {
                    var writer = await ParquetWriter
                        .CreateAsync(Schema, stream)
                        .ConfigureAwait(false);
                    await using (writer.ConfigureAwait(false))
                    {
                        writer.CustomMetadata = new Dictionary<string, string>
                        {
                            [KeyName] = key,
                            [SumName] = ShardSum.Blank,
                        };
                        foreach (var batch in batches)
                        {
                            using var group = writer.CreateRowGroup();
                            await WriteBatchAsync(group, batch).ConfigureAwait(false);
                        }
                    }

                    ShardSum.Set(stream);
                }
            )
            .ConfigureAwait(false);
    }

    /// <summary>The fingerprint in a shard; nothing where the file is not a shard, or not the whole one that was written.</summary>
    /// <param name="path">The shard.</param>
    public static string? KeyOf(string path)
    {
        try
        {
            using var stream = File.OpenRead(path);
            if (!ShardSum.Holds(stream))
            {
                return null;
            }

            stream.Position = 0;
            var reader = ParquetReader.CreateAsync(stream).GetAwaiter().GetResult();
            try
            {
                return reader.CustomMetadata.GetValueOrDefault(KeyName);
            }
            finally
            {
                reader.DisposeAsync().AsTask().GetAwaiter().GetResult();
            }
        }
#pragma warning disable CA1031 // whatever is wrong with it, it is not a shard
        catch (Exception)
#pragma warning restore CA1031
        {
            return null;
        }
    }

    /// <summary>Reads a shard, a row group at a time.</summary>
    /// <param name="path">The shard.</param>
    public static IEnumerable<DeckRecord> Read(string path)
    {
        using var stream = File.OpenRead(path);
        var reader = ParquetReader.CreateAsync(stream).GetAwaiter().GetResult();
        try
        {
            for (var g = 0; g < reader.RowGroupCount; g++)
            {
                using var group = reader.OpenRowGroupReader(g);
                foreach (var record in ReadBatchAsync(group).GetAwaiter().GetResult())
                {
                    yield return record;
                }
            }
        }
        finally
        {
            reader.DisposeAsync().AsTask().GetAwaiter().GetResult();
        }
    }

    private static async Task WriteBatchAsync(
        ParquetRowGroupWriter group,
        IReadOnlyList<DeckRecord> batch
    )
    {
        var rows = batch
            .SelectMany(d =>
                d.Options.Select((o, n) => new Row(d, n, o)).DefaultIfEmpty(new(d, -1, null))
            )
            .ToArray();
        Task Whole(DataField field, Func<Row, int> of) =>
            group.WriteAsync<int>(field, rows.Select(of).ToArray().AsMemory());
        Task Words(DataField field, Func<Row, string> of) =>
            group.WriteAsync(field, rows.Select(of).ToArray());

        await Whole(Index, r => r.Deck.Index).ConfigureAwait(false);
        await Words(Folder, r => r.Deck.Folder).ConfigureAwait(false);
        await Words(Name, r => r.Deck.Name).ConfigureAwait(false);
        await Words(Failure, r => r.Deck.Failure ?? "").ConfigureAwait(false);
        await group
            .WriteAsync<long>(Area, rows.Select(r => r.Deck.AreaDm2 ?? -1).ToArray().AsMemory())
            .ConfigureAwait(false);
        await Whole(Survey, r => r.Deck.SurveyYear ?? -1).ConfigureAwait(false);
        await Words(Evidence, r => r.Deck.Evidence).ConfigureAwait(false);
        await Words(Remarks, r => r.Deck.Remarks).ConfigureAwait(false);
        await Words(Prices, r => r.Deck.Prices).ConfigureAwait(false);
        await Whole(Option, r => r.Number).ConfigureAwait(false);
        await Words(Strategy, r => r.Option?.Strategy ?? "").ConfigureAwait(false);
        await Whole(Start, r => r.Option?.StartYear ?? -1).ConfigureAwait(false);
        await group
            .WriteAsync(
                Cost,
                rows.Select(r =>
                        MemoryMarshal
                            .AsBytes<long>(r.Option is { } o ? o.CostByYear.AsSpan() : [])
                            .ToArray()
                    )
                    .ToArray()
            )
            .ConfigureAwait(false);
        await group
            .WriteAsync(
                Damaged,
                rows.Select(r =>
                        MemoryMarshal
                            .AsBytes<int>(r.Option is { } o ? o.DamagedPpm.AsSpan() : [])
                            .ToArray()
                    )
                    .ToArray()
            )
            .ConfigureAwait(false);
    }

    private static async Task<List<DeckRecord>> ReadBatchAsync(ParquetRowGroupReader group)
    {
        var rows = checked((int)group.RowCount);
        async Task<int[]> Whole(DataField field)
        {
            var values = new int[rows];
            await group.ReadAsync<int>(field, values.AsMemory()).ConfigureAwait(false);
            return values;
        }

        async Task<string[]> Words(DataField field)
        {
            var values = new string?[rows];
            await group.ReadAsync(field, values.AsMemory()).ConfigureAwait(false);
            return [.. values.Select(v => v ?? "")];
        }

        async Task<byte[][]> Bytes(DataField field)
        {
            var values = new byte[]?[rows];
            await group.ReadAsync(field, values.AsMemory()).ConfigureAwait(false);
            return [.. values.Select(v => v ?? [])];
        }

        var areas = new long[rows];
        await group.ReadAsync<long>(Area, areas.AsMemory()).ConfigureAwait(false);
        var index = await Whole(Index).ConfigureAwait(false);
        var survey = await Whole(Survey).ConfigureAwait(false);
        var option = await Whole(Option).ConfigureAwait(false);
        var start = await Whole(Start).ConfigureAwait(false);
        var folder = await Words(Folder).ConfigureAwait(false);
        var name = await Words(Name).ConfigureAwait(false);
        var failure = await Words(Failure).ConfigureAwait(false);
        var evidence = await Words(Evidence).ConfigureAwait(false);
        var remarks = await Words(Remarks).ConfigureAwait(false);
        var prices = await Words(Prices).ConfigureAwait(false);
        var strategy = await Words(Strategy).ConfigureAwait(false);
        var cost = await Bytes(Cost).ConfigureAwait(false);
        var damaged = await Bytes(Damaged).ConfigureAwait(false);
        var records = new List<DeckRecord>();
        for (int i = 0, next; i < rows; i = next)
        {
            var options = ImmutableArray.CreateBuilder<DeckOption>();
            for (next = i; next < rows && index[next] == index[i]; next++)
            {
                if (option[next] >= 0)
                {
                    options.Add(
                        new(
                            start[next] < 0 ? null : strategy[next],
                            start[next] < 0 ? null : start[next],
                            [.. MemoryMarshal.Cast<byte, long>(cost[next])],
                            [.. MemoryMarshal.Cast<byte, int>(damaged[next])]
                        )
                    );
                }
            }

            records.Add(
                new()
                {
                    Index = index[i],
                    Folder = folder[i],
                    Name = name[i],
                    Failure = failure[i].Length == 0 ? null : failure[i],
                    AreaDm2 = areas[i] < 0 ? null : areas[i],
                    SurveyYear = survey[i] < 0 ? null : survey[i],
                    Evidence = evidence[i],
                    Remarks = remarks[i],
                    Prices = prices[i],
                    Options = options.ToImmutable(),
                }
            );
        }

        return records;
    }

    // One option of one deck; option −1 stands for a deck without any.
    private sealed record Row(DeckRecord Deck, int Number, DeckOption? Option);
}
