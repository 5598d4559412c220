using System.Globalization;
using DeckLife.Projection;

namespace DeckLife.Data.Projection;

/// <summary>The folder of a projection's results: JSON, and CSV tables of curves, strategies, work and costs.</summary>
public static class ProjectionFolder
{
    /// <summary>Writes all files, each whole or not at all; the folder is made where it is not there.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="projection">The projection.</param>
    /// <param name="json">Its JSON.</param>
    public static async Task WriteAsync(string folder, DeckProjection projection, string json)
    {
        ArgumentNullException.ThrowIfNull(projection);
        Directory.CreateDirectory(folder);
        await WholeFile
            .WriteTextAsync(Path.Combine(folder, "projection.json"), json)
            .ConfigureAwait(false);
        (string Name, Action<DeckProjection, TextWriter> Write)[] tables =
        [
            ("curves.csv", ProjectionCsv.Write),
            ("strategies.csv", ProjectionCsv.WriteStrategies),
            ("work.csv", ProjectionCsv.WriteWork),
            ("costs.csv", ProjectionCsv.WriteCosts),
        ];
        foreach (var (name, write) in tables)
        {
            using var text = new StringWriter(CultureInfo.InvariantCulture);
            write(projection, text);
            await WholeFile
                .WriteTextAsync(Path.Combine(folder, name), text.ToString())
                .ConfigureAwait(false);
        }
    }
}
