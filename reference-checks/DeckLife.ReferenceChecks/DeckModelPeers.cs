using System.Globalization;
using System.Runtime.CompilerServices;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.ReferenceChecks;

/// <summary>The invented deck of peers/deck-model and what its peers printed.</summary>
internal static class DeckModelPeers
{
    private static string Folder => Path.Combine(SourceFolder(), "..", "peers", "deck-model");

    /// <summary>The cores of deck.csv.</summary>
    public static IReadOnlyList<CoreProfile> Deck() =>
        [
            .. File.ReadLines(Path.Combine(Folder, "deck.csv"))
                .Skip(1)
                .Select(line => line.Split(','))
                .GroupBy(cells => cells[0])
                .Select(core => new CoreProfile
                {
                    Core = core.Key,
                    ExposureAge = Age.FromYears(Number(core.First()[1])),
                    Slices =
                    [
                        .. core.Select(cells => new ChlorideSlice
                        {
                            Top = Depth.FromMillimetres(Number(cells[2])),
                            Bottom = Depth.FromMillimetres(Number(cells[3])),
                            Content = ChlorideContent.FromKilogramsPerCubicMetre(Number(cells[4])),
                        }),
                    ],
                }),
        ];

    /// <summary>The values that a peer printed, by name; rows of several values get "name column" for each pair.</summary>
    /// <param name="file">The checked-in output.</param>
    public static IReadOnlyDictionary<string, double> Output(string file)
    {
        var values = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var line in File.ReadLines(Path.Combine(Folder, file)).Skip(1))
        {
            var cells = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            if (cells.Length == 2)
            {
                values[cells[0]] = Number(cells[1]);
            }

            for (var i = 1; i + 1 < cells.Length; i += 2)
            {
                values[$"{cells[0]} {cells[i]}"] = Number(cells[i + 1]);
            }
        }

        return values;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string SourceFolder([CallerFilePath] string path = "") =>
        Path.GetDirectoryName(path)!;
}
