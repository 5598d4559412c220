using System.Globalization;
using System.Runtime.CompilerServices;
using DeckLife.Data.Ingress;
using DeckLife.Transport;

namespace DeckLife.ReferenceChecks;

/// <summary>The ingress cases kept beside this project, each against a recomputation by SciPy.</summary>
public sealed class TransportIngressCases : IReferenceCaseSet
{
    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        var expected = File.ReadLines(Path.Combine(Folder(), "peers", "ingress", "expected.csv"))
            .Where(l => l.Length > 0 && l[0] != '#')
            .Skip(1)
            .Select(l => l.Split(','))
            .ToLookup(cells => cells[0], StringComparer.Ordinal);
        foreach (
            var file in Directory
                .GetFiles(Path.Combine(Folder(), "ingress-cases"), "*.json")
                .Order(StringComparer.Ordinal)
        )
        {
            var name = Path.GetFileNameWithoutExtension(file);
            var item =
                IngressCaseReader.Read(File.ReadAllText(file)).Case
                ?? throw new InvalidOperationException($"{name} is not readable");
            var result = new Lazy<IngressResult>(() =>
                SectionSolver.Solve(item.Section, item.Queries)
            );
            var largest = expected[name].Max(cells => Number(cells[3]));
            yield return new ReferenceCase(
                "ingress/" + name,
                "Transport engine against SciPy's method of lines",
                $"ingress-cases/{name}.json (invented)",
                "peers/ingress/recompute.py: equal volumes, harmonic resistances, SciPy BDF, two cell sizes extrapolated",
                HowGot.ComputedIndependently,
                "the engine's own tolerance of 2e-4 of the largest content, and the recomputation's own error",
                [
                    .. expected[name]
                        .Select(
                            (cells, i) =>
                                new ReferenceValue(
                                    string.Create(
                                        CultureInfo.InvariantCulture,
                                        $"t {Number(cells[1]):G5} yr, x {Number(cells[2]):G5} mm [kg/m³]"
                                    ),
                                    Number(cells[3]),
                                    () => result.Value.Rows[i].Chloride.KilogramsPerCubicMetre,
                                    (2e-4 * largest) + Number(cells[4]),
                                    IsAbsolute: true
                                )
                        ),
                ]
            );
        }
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Folder([CallerFilePath] string path = "") =>
        Path.Combine(Path.GetDirectoryName(path)!, "..");
}
