using DeckLife.Data.Networks;
using DeckLife.Network.Decks;
using Xunit;

namespace DeckLife.Network.Tests;

public class NetworkShardsTests
{
    private const string Version = "version of the test";

    [Fact]
    public async Task Merge_AnyNumberOfShardsAndThreads_SameBytesInEveryFile()
    {
        using var small = new SmallNetwork();
        var reading = small.Read();
        var whole = await RunAsync(small, reading, "whole", shards: 1, threads: 1);
        foreach (var (shards, threads) in new[] { (2, 2), (3, 8), (5, 1), (9, 2) })
        {
            var parts = await RunAsync(
                small,
                reading,
                FormattableString.Invariant($"parts-{shards}"),
                shards,
                threads
            );
            foreach (var name in NetworkSession.FileNames)
            {
                Assert.True(
                    whole[name].AsSpan().SequenceEqual(parts[name]),
                    $"{name} of {shards} shards on {threads} threads"
                );
            }
        }
    }

    [Fact]
    public async Task Merge_BrokenDeck_IsARowWithItsReason()
    {
        using var small = new SmallNetwork();
        var reading = small.Read();
        var files = await RunAsync(small, reading, "whole", shards: 2, threads: 2);

        var rows = System
            .Text.Encoding.UTF8.GetString(files["decks.csv"])
            .TrimEnd('\n')
            .Split('\n');

        Assert.Equal(6, rows.Length);
        var broken = Assert.Single(rows, r => r.Contains(",failed,", StringComparison.Ordinal));
        Assert.StartsWith("d3,", broken, StringComparison.Ordinal);
        Assert.Contains("area is missing", broken, StringComparison.Ordinal);
    }

    [Fact]
    public void Solve_DeckWithoutAnswerAndConditionThatCanNotBeHeld_AreBothSaid()
    {
        using var small = new SmallNetwork();
        var reading = small.Read();
        // Nothing may be spent, and next to nothing may be damaged.
        var network = reading.Network! with
        {
            Budgets = [.. reading.Network.Budgets.Select(_ => 0L)],
            DamagedAtMost = 1e-6,
            DamagedAtMostFrom = 2034,
        };

        var flags = Results
            .NetworkProgram.Solve(
                network,
                () =>
                    Enumerable
                        .Range(0, network.Members.Length)
                        .Select(i => NetworkShards.Project(reading, i))
            )
            .Flags;

        Assert.Equal(["DL7003", "DL7004"], flags.Select(f => f.Code));
        Assert.StartsWith("d3 (", flags[0].Text, StringComparison.Ordinal);
        Assert.All(flags, f => Assert.DoesNotContain("{", f.Text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Do_ShardThatIsThere_IsNotDoneAgainUnlessItsFilesChanged()
    {
        using var small = new SmallNetwork(4);
        var place = small.Sub("shards");
        var reading = small.Read();
        Assert.True(await NetworkShards.DoAsync(reading, 1, 2, place, Version));
        var path = Path.Combine(place, NetworkShards.FileName(1, 2));
        var bytes = await File.ReadAllBytesAsync(path);

        Assert.False(await NetworkShards.DoAsync(reading, 1, 2, place, Version));
        small.Write(
            "d4/deck.json",
            (await File.ReadAllTextAsync(Path.Combine(small.Folder, "d4", "deck.json"))).Replace(
                "Deck 4",
                "Deck four",
                StringComparison.Ordinal
            )
        );
        // The fourth deck is not in the first shard.
        Assert.False(await NetworkShards.DoAsync(small.Read(), 1, 2, place, Version));
        small.Write("d1/sounding.csv", "finding,area_m2\ndelaminated,20\n");
        Assert.True(await NetworkShards.DoAsync(small.Read(), 1, 2, place, Version));
        Assert.NotEqual(bytes, await File.ReadAllBytesAsync(path));
    }

    [Fact]
    public async Task Do_HalfWrittenFiles_AreNeverRead()
    {
        using var small = new SmallNetwork(4);
        var place = small.Sub("shards");
        var reading = small.Read();
        await NetworkShards.DoAsync(reading, 1, 1, place, Version);
        var path = Path.Combine(place, NetworkShards.FileName(1, 1));
        var whole = await File.ReadAllBytesAsync(path);
        foreach (var length in new[] { 0, 3, whole.Length / 2, whole.Length - 1 })
        {
            // What a kill leaves is a temporary file; what a broken disk leaves may bear the shard's own name.
            await File.WriteAllBytesAsync(path + ".host-1.tmp", whole[..length]);
            await File.WriteAllBytesAsync(path, whole[..length]);
            Assert.Empty(NetworkShards.Find(reading, [place], Version, out var problem));
            Assert.Equal("DL7005", problem!.Code);

            Assert.True(await NetworkShards.DoAsync(reading, 1, 1, place, Version));
            Assert.Equal(whole, await File.ReadAllBytesAsync(path));
        }
    }

    [Fact]
    public async Task Find_ShardWithAnyBitChanged_IsRefused()
    {
        using var small = new SmallNetwork(4);
        var place = small.Sub("shards");
        var reading = small.Read();
        await NetworkShards.DoAsync(reading, 1, 1, place, Version);
        var path = Path.Combine(place, NetworkShards.FileName(1, 1));
        var whole = await File.ReadAllBytesAsync(path);
        var random = new Random(20311);
        for (var i = 0; i < 200; i++)
        {
            var changed = whole.ToArray();
            // Half of them in the footer, which says where the numbers are.
            var from = i % 2 == 0 ? 0 : Math.Max(0, whole.Length - 4000);
            changed[random.Next(from, whole.Length)] ^= (byte)(1 << random.Next(8));
            await File.WriteAllBytesAsync(path, changed);

            Assert.Empty(NetworkShards.Find(reading, [place], Version, out var problem));
            Assert.Equal("DL7005", problem!.Code);
        }

        await File.WriteAllBytesAsync(path, whole);
        Assert.Single(NetworkShards.Find(reading, [place], Version, out _));
    }

    [Fact]
    public async Task Find_ShardMissingOrOfAnotherSeed_IsRefused()
    {
        using var small = new SmallNetwork(4);
        var place = small.Sub("shards");
        var reading = small.Read();
        await NetworkShards.DoAsync(reading, 2, 2, place, Version);

        Assert.Empty(NetworkShards.Find(reading, [place], Version, out var missing));
        Assert.Equal("DL7006", missing!.Code);
        Assert.Contains("the first missing is 1", missing.Text, StringComparison.Ordinal);

        await NetworkShards.DoAsync(reading, 1, 2, place, Version);
        Assert.Equal(2, NetworkShards.Find(reading, [place], Version, out _).Length);
        var other = reading with { Network = reading.Network! with { Seed = 8 } };
        Assert.Empty(NetworkShards.Find(other, [place], Version, out var foreign));
        Assert.Equal("DL7005", foreign!.Code);
        Assert.Empty(NetworkShards.Find(reading, [place], "another version", out foreign));
        Assert.Equal("DL7005", foreign!.Code);
    }

    [Fact]
    public async Task Records_ReadBack_EqualWhatWasProjected()
    {
        using var small = new SmallNetwork();
        var place = small.Sub("shards");
        var reading = small.Read();
        await NetworkShards.DoAsync(reading, 1, 1, place, Version);

        var records = NetworkShards
            .Records(NetworkShards.Find(reading, [place], Version, out _))
            .ToArray();

        Assert.Equal(5, records.Length);
        for (var i = 0; i < records.Length; i++)
        {
            var direct = NetworkShards.Project(reading, i);
            Assert.Equal(direct with { Options = [] }, records[i] with { Options = [] });
            Assert.True(direct.Options.SequenceEqual(records[i].Options));
        }
    }

    [Fact]
    public void Range_OfAllShards_CoversEachDeckOnce()
    {
        for (var decks = 0; decks < 40; decks++)
        {
            for (var shards = 1; shards < 12; shards++)
            {
                var next = 0;
                for (var k = 1; k <= shards; k++)
                {
                    var (first, end) = NetworkShards.Range(decks, k, shards);
                    Assert.Equal(next, first);
                    next = end;
                }

                Assert.Equal(decks, next);
            }
        }
    }

    private static async Task<Dictionary<string, byte[]>> RunAsync(
        SmallNetwork small,
        NetworkReading reading,
        string name,
        int shards,
        int threads
    )
    {
        var place = small.Sub(name);
        for (var k = shards; k >= 1; k--)
        {
            await NetworkShards.DoAsync(reading, k, shards, place, Version, threads);
        }

        var session = NetworkSession.Merge(
            reading,
            NetworkShards.Find(reading, [place], Version, out _)
        );
        await session.WriteAsync(place);
        return NetworkSession.FileNames.ToDictionary(
            f => f,
            f => File.ReadAllBytes(Path.Combine(place, f))
        );
    }
}
