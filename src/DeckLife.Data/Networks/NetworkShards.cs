using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Data.Folders;
using DeckLife.Diagnostics;
using DeckLife.Network.Decks;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Data.Networks;

/// <summary>The work of a network cut into shards, each a file: restartable, repeatable, in any order and on any machine.</summary>
public static class NetworkShards
{
    /// <summary>Name of the folder of shards inside a folder of results.</summary>
    public const string FolderName = "shards";

    /// <summary>Number of shards where none is asked for: five decks each, at most 200.</summary>
    /// <param name="decks">Number of decks.</param>
    public static int DefaultCount(int decks) => Math.Clamp((decks + 4) / 5, 1, 200);

    /// <summary>The decks of a shard: a run of neighbours in the network's list.</summary>
    /// <param name="decks">Number of decks in the network.</param>
    /// <param name="shard">Number of the shard, from 1.</param>
    /// <param name="shards">Number of shards.</param>
    public static (int First, int End) Range(int decks, int shard, int shards) =>
        ((int)((long)decks * (shard - 1) / shards), (int)((long)decks * shard / shards));

    /// <summary>File name of a shard.</summary>
    /// <param name="shard">Number of the shard, from 1.</param>
    /// <param name="shards">Number of shards.</param>
    public static string FileName(int shard, int shards) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"shard-{shard:00000}-of-{shards:00000}.parquet"
        );

    /// <summary>Does a shard, unless it is there already with the same fingerprint.</summary>
    /// <param name="reading">The network.</param>
    /// <param name="shard">Number of the shard, from 1.</param>
    /// <param name="shards">Number of shards.</param>
    /// <param name="folder">Folder of the shards; made where it is not there.</param>
    /// <param name="version">Version of the program.</param>
    /// <param name="threads">Most threads; 0 for all processors; never changes a byte.</param>
    /// <param name="done">Told each time that some decks are done, with their number.</param>
    /// <param name="cancellation">Ends it early; nothing half-done is left under the shard's name.</param>
    /// <returns>Whether it had to be done.</returns>
    public static async Task<bool> DoAsync(
        NetworkReading reading,
        int shard,
        int shards,
        string folder,
        string version,
        int threads = 0,
        Action<int>? done = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(reading);
        Directory.CreateDirectory(folder);
        var (first, end) = Range(reading.Network!.Members.Length, shard, shards);
        var key = NetworkFolder.Fingerprint(reading, first, end, version);
        var path = Path.Combine(folder, FileName(shard, shards));
        if (File.Exists(path) && BelongsTo(reading, shard, shards, path, version))
        {
            done?.Invoke(end - first);
            return false;
        }

        await NetworkShardFile
            .WriteAsync(path, key, Batches(reading, first, end, threads, done, cancellation))
            .ConfigureAwait(false);
        return true;
    }

    /// <summary>Finds the shards of a network in folders and checks that they are all there and belong to it.</summary>
    /// <param name="reading">The network.</param>
    /// <param name="folders">Folders of shards, or folders of results that hold one.</param>
    /// <param name="version">Version of the program.</param>
    /// <param name="problem">What is wrong; absent when nothing is.</param>
    /// <returns>The files in the order of the decks; empty when something is wrong.</returns>
    public static ImmutableArray<string> Find(
        NetworkReading reading,
        IEnumerable<string> folders,
        string version,
        out Diagnostic? problem
    )
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(folders);
        var files = new SortedDictionary<int, SortedDictionary<int, string>>();
        foreach (
            var file in folders
                .SelectMany(f => new[] { f, Path.Combine(f, FolderName) })
                .Where(Directory.Exists)
                .SelectMany(f => Directory.EnumerateFiles(f, "shard-*-of-*.parquet"))
                .Order(StringComparer.Ordinal)
        )
        {
            if (Numbers(file) is (var k, var n))
            {
                (files.TryGetValue(n, out var known) ? known : files[n] = []).TryAdd(k, file);
            }
        }

        problem = null;
        foreach (var (shards, found) in files.Where(f => f.Value.Count == f.Key))
        {
            var foreign = found.FirstOrDefault(f =>
                !BelongsTo(reading, f.Key, shards, f.Value, version)
            );
            if (foreign.Value is null)
            {
                problem = null;
                return [.. found.Values];
            }

            problem ??= DiagnosticCatalogue.NetworkShardOfAnother.With(
                Path.GetFileName(foreign.Value)
            );
        }

        problem ??= DiagnosticCatalogue.NetworkShardsMissing.With(
            files.Count == 0
                ? "no shard was found"
                : string.Join(
                    "; ",
                    files.Select(f =>
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"of {f.Key} shards {f.Value.Count} are there, the first missing is {Enumerable.Range(1, f.Key).First(k => !f.Value.ContainsKey(k))}"
                        )
                    )
                )
        );
        return [];
    }

    private static bool BelongsTo(
        NetworkReading reading,
        int shard,
        int shards,
        string path,
        string version
    )
    {
        var (first, end) = Range(reading.Network!.Members.Length, shard, shards);
        return NetworkShardFile.KeyOf(path)
            == NetworkFolder.Fingerprint(reading, first, end, version);
    }

    /// <summary>Reads all decks out of shards, a few at a time.</summary>
    /// <param name="files">The shards in the order of the decks.</param>
    public static IEnumerable<DeckRecord> Records(ImmutableArray<string> files) =>
        files.SelectMany(NetworkShardFile.Read);

    /// <summary>Projects one deck of the network: its record whatever is wrong with it.</summary>
    /// <param name="reading">The network.</param>
    /// <param name="index">The deck's place in the list.</param>
    /// <param name="cancellation">Ends it early.</param>
    public static DeckRecord Project(
        NetworkReading reading,
        int index,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(reading);
        var member = reading.Network!.Members[index];
        DeckFolderResult read;
        try
        {
            read = NetworkFolder.ReadDeck(reading, index);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Failed(e.Message);
        }

        return read.Deck is { } deck
            ? OptionsOf(deck)
            : Failed(
                string.Join(
                    " ",
                    read.Problems.Where(p => p.Severity == Severity.Error)
                        .Select(p => $"{p.Code} {p.PlaceBeforeText}: {p.Text}")
                )
            );

        // One deck must not end a run of thousands: what nobody foresaw is that deck's reason, and says what it is.
        DeckRecord OptionsOf(Deck deck)
        {
            try
            {
                return DeckOptions.Of(reading.Network!, index, deck, cancellation);
            }
            catch (OperationCanceledException)
            {
                throw;
            }
#pragma warning disable CA1031 // told with the deck, not swallowed
            catch (Exception e)
#pragma warning restore CA1031
            {
                return Failed(
                    $"could not be computed, which is a defect of this program ({e.GetType().Name}: {e.Message})"
                ) with
                {
                    Name = deck.Name,
                };
            }
        }

        DeckRecord Failed(string reason) =>
            new()
            {
                Index = index,
                Folder = member.Folder,
                Name = member.Folder,
                Failure = reason,
            };
    }

    private static IEnumerable<DeckRecord[]> Batches(
        NetworkReading reading,
        int first,
        int end,
        int threads,
        Action<int>? done,
        CancellationToken cancellation
    )
    {
        for (var from = first; from < end; from += NetworkShardFile.DecksAtOnce)
        {
            var start = from;
            var batch = FixedOrderParallel.Map(
                Math.Min(NetworkShardFile.DecksAtOnce, end - from),
                i => Project(reading, start + i, cancellation),
                threads,
                cancellation
            );
            done?.Invoke(batch.Length);
            yield return batch;
        }
    }

    private static (int Shard, int Shards)? Numbers(string file)
    {
        var parts = Path.GetFileNameWithoutExtension(file).Split('-');
        return
            parts.Length == 4
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var k)
            && int.TryParse(parts[3], NumberStyles.None, CultureInfo.InvariantCulture, out var n)
            && k >= 1
            && k <= n
            ? (k, n)
            : null;
    }
}
