using System.Globalization;
using System.Runtime.CompilerServices;

namespace DeckLife.Numerics.Tests.ErrorFunctions;

/// <summary>Values computed with mpmath, kept under reference-checks/peers/special-functions with their script.</summary>
internal static class PeerValues
{
    public static IEnumerable<(double First, double Second, double Third, double Value)> Of(
        string quantity
    ) =>
        File.ReadLines(Path.Combine(Folder(), "values.csv"))
            .Select(line => line.Split(','))
            .Where(cells => cells[0] == quantity)
            .Select(cells =>
                (Number(cells[1]), Number(cells[2]), Number(cells[3]), Number(cells[4]))
            );

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Folder([CallerFilePath] string path = "") =>
        Path.Combine(
            Path.GetDirectoryName(path)!,
            "../../../reference-checks/peers/special-functions"
        );
}
