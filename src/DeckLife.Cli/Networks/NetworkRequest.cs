using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Data.Networks;

namespace DeckLife.Cli;

/// <summary>What was asked of the network verb.</summary>
internal sealed record NetworkRequest
{
    public required string Folder { get; init; }

    public string? Out { get; init; }

    public required string Format { get; init; }

    public bool Force { get; init; }

    public bool Page { get; init; }

    public ulong? Seed { get; init; }

    public int? Draws { get; init; }

    public int? Points { get; init; }

    public int Threads { get; init; }

    public bool Quiet { get; init; }

    public string? Shard { get; init; }

    public bool Resume { get; init; }

    public ImmutableArray<string> Shards { get; init; } = [];

    /// <summary>The share asked for; absent: all.</summary>
    public (int Shard, int Shards)? Share
    {
        get
        {
            var parts = Shard?.Split('/') ?? [];
            return
                parts.Length == 2
                && int.TryParse(
                    parts[0],
                    NumberStyles.None,
                    CultureInfo.InvariantCulture,
                    out var k
                )
                && int.TryParse(
                    parts[1],
                    NumberStyles.None,
                    CultureInfo.InvariantCulture,
                    out var n
                )
                && k >= 1
                && k <= n
                && n <= 99_999
                ? (k, n)
                : null;
        }
    }

    /// <summary>What is wrong with the arguments; absent: nothing.</summary>
    public string? Problem()
    {
        if (string.IsNullOrWhiteSpace(Folder))
        {
            return "Name the network's folder.";
        }

        if (Threads < 0)
        {
            return "--threads: a number of 0 or more is needed; 0 takes all processors.";
        }

        if (Draws is < 20 or > 10_000)
        {
            return "--draws: 20 to 10000 are allowed.";
        }

        if (Points is < 16 or > 65_536)
        {
            return "--points: 16 to 65536 are allowed.";
        }

        if (Shard is not null && Share is null)
        {
            return $"--shard {Shard}: k/n is needed, k from 1 to n, such as 2/8.";
        }

        if (Shard is not null && Out is null)
        {
            return "--shard leaves its part in a folder: give --out.";
        }

        if (Page && Out is null)
        {
            return "--page writes the report into a folder: give --out.";
        }

        if (Resume && Out is null)
        {
            return "--resume goes on in a folder: give --out.";
        }

        return
            Out is { } folder
            && !Force
            && !Resume
            && Shard is null
            && Directory.Exists(folder)
            && Directory.EnumerateFileSystemEntries(folder).FirstOrDefault() is { } there
            ? $"{there} is there already: give --resume to go on, --force to overwrite, or another folder."
            : null;
    }

    /// <summary>The network with what the arguments override.</summary>
    public NetworkReading Settle(NetworkReading reading) =>
        reading.Network is { } network
            ? reading with
            {
                Network = network with
                {
                    Seed = Seed ?? network.Seed,
                    Draws = Draws ?? network.Draws,
                    Points = Points ?? network.Points,
                },
            }
            : reading;
}
