using DeckLife.Network.Programs;
using DeckLife.Network.Results;

namespace DeckLife.Data.Networks;

/// <summary>A network read from its folder and answered in this process: what a notebook calls, and what the command ends with.</summary>
/// <param name="Result">The results.</param>
/// <param name="Provenance">Where they come from.</param>
public sealed record NetworkSession(NetworkResult Result, NetworkProvenance Provenance)
{
    /// <summary>Names of the files that <see cref="WriteAsync"/> writes.</summary>
    public static IReadOnlyList<string> FileNames { get; } =
    [
        "program.json",
        "decks.csv",
        "decks.parquet",
        "condition.csv",
        "condition.parquet",
        "money.csv",
    ];

    /// <summary>Reads and answers a network; shards go to a temporary folder that is removed again.</summary>
    /// <param name="folder">The network's folder.</param>
    /// <param name="draws">Draws for each deck; absent: as network.json says.</param>
    /// <param name="points">Points for each draw; absent: as network.json says.</param>
    /// <exception cref="InvalidDataException">network.json can't be used; every problem is named.</exception>
    public static async Task<NetworkSession> RunAsync(
        string folder,
        int? draws = null,
        int? points = null
    )
    {
        var reading = NetworkFolder.Read(folder);
        if (reading.Network is not { } network)
        {
            throw new InvalidDataException(
                string.Join("\n", reading.Problems.Select(p => $"{p.Code}: {p.Text}"))
            );
        }

        reading = reading with
        {
            Network = network with
            {
                Draws = draws ?? network.Draws,
                Points = points ?? network.Points,
            },
        };
        var place = Directory.CreateTempSubdirectory("decklife-network-");
        try
        {
            var provenance = NetworkProvenance.Of(reading);
            await NetworkShards
                .DoAsync(reading, 1, 1, place.FullName, provenance.Build.Version)
                .ConfigureAwait(false);
            var files = NetworkShards.Find(
                reading,
                [place.FullName],
                provenance.Build.Version,
                out _
            );
            return new(
                NetworkProgram.Solve(reading.Network, () => NetworkShards.Records(files)),
                provenance
            );
        }
        finally
        {
            place.Delete(recursive: true);
        }
    }

    /// <summary>Answers a network whose shards are all there.</summary>
    /// <param name="reading">The network.</param>
    /// <param name="files">Its shards, in the order of the decks.</param>
    /// <param name="limits">When a search for a program ends; absent: the documented limits.</param>
    /// <param name="cancellation">Ends it early.</param>
    public static NetworkSession Merge(
        NetworkReading reading,
        System.Collections.Immutable.ImmutableArray<string> files,
        SearchLimits? limits = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(reading);
        return new(
            NetworkProgram.Solve(
                reading.Network!,
                () => NetworkShards.Records(files),
                limits,
                cancellation
            ),
            NetworkProvenance.Of(reading)
        );
    }

    /// <summary>Writes the results: each file beside its place first, then renamed.</summary>
    /// <param name="folder">The folder; made where it is not there.</param>
    public async Task WriteAsync(string folder)
    {
        Directory.CreateDirectory(folder);
        var metadata = new Dictionary<string, string>
        {
            ["decklife.version"] = Provenance.Build.Version,
            ["decklife.fingerprint"] = Provenance.Fingerprint,
        };
        await TextAsync(folder, "program.json", NetworkJson.Write(Result, Provenance))
            .ConfigureAwait(false);
        var decks = NetworkTables.Decks(Result);
        var condition = NetworkTables.Condition(Result);
        await TextAsync(folder, "decks.csv", Csv(decks)).ConfigureAwait(false);
        await TextAsync(folder, "condition.csv", Csv(condition)).ConfigureAwait(false);
        await TextAsync(folder, "money.csv", Csv(NetworkTables.Money(Result)))
            .ConfigureAwait(false);
        await ParquetAsync(folder, "decks.parquet", decks, metadata).ConfigureAwait(false);
        await ParquetAsync(folder, "condition.parquet", condition, metadata).ConfigureAwait(false);
    }

    /// <summary>The decks as CSV.</summary>
    public string DecksToCsv() => Csv(NetworkTables.Decks(Result));

    private static string Csv(NetworkTable table)
    {
        using var text = new StringWriter(System.Globalization.CultureInfo.InvariantCulture);
        table.WriteCsv(text);
        return text.ToString();
    }

    private static Task TextAsync(string folder, string name, string text) =>
        WholeFile.WriteTextAsync(Path.Combine(folder, name), text);

    private static Task ParquetAsync(
        string folder,
        string name,
        NetworkTable table,
        Dictionary<string, string> metadata
    ) =>
        WholeFile.WriteAsync(
            Path.Combine(folder, name),
            stream => table.WriteParquetAsync(stream, metadata)
        );
}
