using System.Diagnostics;
using System.Globalization;
using System.Text;
using DeckLife.Data.Folders;
using DeckLife.Data.Tests.Folders;
using DeckLife.Diagnostics;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Data.Tests.Mutations;

/// <summary>
/// Random changes to the files of a deck end in a result or in listed problems: no exception, no hang, nothing half-read.
/// A share runs here; tests/studies/mutate-deck-folders.sh runs 100 000 (DECKLIFE_MUTATIONS sets the number, DECKLIFE_MUTATION_SEED the first seed).
/// </summary>
public class DeckFolderMutationTests(ITestOutputHelper log)
{
    private const int Share = 600;

    [Fact]
    public void Read_MutatedFolders_ResultOrListedProblems()
    {
        var count = Setting("DECKLIFE_MUTATIONS", Share);
        var first = Setting("DECKLIFE_MUTATION_SEED", 1);
        var source = Path.Combine(DeckFolderTests.Inputs, "minimal-deck");
        var originals = Directory
            .GetFiles(source)
            .Order(StringComparer.Ordinal)
            .ToDictionary(f => Path.GetFileName(f)!, File.ReadAllBytes);
        var names = originals.Keys.ToArray();
        var folder = Directory.CreateTempSubdirectory("decklife-mutations").FullName;
        var codes = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var usable = 0;
        var slowest = (Milliseconds: 0L, Seed: 0);
        try
        {
            foreach (var (name, bytes) in originals)
            {
                File.WriteAllBytes(Path.Combine(folder, name), bytes);
            }

            for (var seed = first; seed < first + count; seed++)
            {
                var name = names[seed % names.Length];
                var mutated = new FolderMutator(seed).Mutate(originals[name]);
                File.WriteAllBytes(Path.Combine(folder, name), mutated);
                var watch = Stopwatch.StartNew();
                DeckFolderResult result;
                try
                {
                    result = DeckFolder.Read(folder);
                }
                catch (Exception e)
                {
                    throw new InvalidOperationException($"seed {seed}, file {name}", e);
                }

                slowest =
                    watch.ElapsedMilliseconds > slowest.Milliseconds
                        ? (watch.ElapsedMilliseconds, seed)
                        : slowest;
                AssertWhole(result, name, mutated, seed);
                usable += result.Deck is null ? 0 : 1;
                foreach (var code in result.Problems.Select(p => p.Code).Distinct())
                {
                    codes[code] = codes.GetValueOrDefault(code) + 1;
                }

                File.WriteAllBytes(Path.Combine(folder, name), originals[name]);
            }
        }
        finally
        {
            Directory.Delete(folder, true);
        }

        log.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{count} mutations from seed {first}: {usable} still a deck, {count - usable} refused with listed problems; slowest {slowest.Milliseconds} ms (seed {slowest.Seed})"
            )
        );
        log.WriteLine(string.Join(", ", codes.Select(c => $"{c.Key} {c.Value}")));

        // Both ends must occur, or the changes would be too tame or too wild to mean anything.
        Assert.InRange(usable, 1, count - 1);
        Assert.True(codes.Count > 25, "few kinds of problems were met");
    }

    private static void AssertWhole(DeckFolderResult result, string name, byte[] mutated, int seed)
    {
        var failed = result.Problems.Any(p => p.Severity == Severity.Error);
        Assert.True(failed == (result.Deck is null), $"seed {seed}: a deck and errors, or neither");
        Assert.All(result.Problems, p => Assert.False(string.IsNullOrWhiteSpace(p.Text)));
        if (result.Deck is not { } deck)
        {
            return;
        }

        Assert.All(deck.Cores, c => Assert.NotEmpty(c.Slices));
        Assert.All(
            deck.Cores.SelectMany(c => c.Slices),
            s => Assert.True(s.Bottom >= s.Top && double.IsFinite(s.Content.KilogramsPerCubicMetre))
        );

        // Nothing is lost: each line with data is a slice, or is named in a problem.
        var text = Encoding.UTF8.GetString(mutated);
        if (
            name == "chlorides.csv"
            && !text.Contains('"', StringComparison.Ordinal)
            && !mutated.Contains((byte)0)
        )
        {
            var lines = text.Split('\n').SelectMany(l => l.Split('\r')).ToList();
            var head = lines.FindIndex(l => l.Contains("core", StringComparison.OrdinalIgnoreCase));
            var data = lines
                .Skip(head + 1)
                .Count(l => l.Any(char.IsAsciiDigit) && !l.TrimStart().StartsWith('#'));
            var slices = deck.Cores.SelectMany(c => c.Slices).Sum(s => s.Replicates);
            var named = result.Problems.Count(p => p.Code is "DL1023" or "DL1040");
            Assert.True(
                slices + named >= data,
                $"seed {seed}: {data} rows, {slices} slices, {named} named"
            );
        }
    }

    private static int Setting(string name, int otherwise) =>
        int.TryParse(
            Environment.GetEnvironmentVariable(name),
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var value
        )
            ? value
            : otherwise;
}
