using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Data.Tables;

/// <summary>Notices cores that are likely one core entered twice, and names that are likely one name.</summary>
internal static class LikelyDuplicates
{
    private const int FewestAlike = 3;

    public static void Report(IReadOnlyList<CoreProfile> cores, ProblemList problems)
    {
        // Contents to the digits that sheets carry: the same number may have gone through another unit.
        var byContents = new Dictionary<string, CoreProfile>(StringComparer.Ordinal);
        var byName = new Dictionary<string, CoreProfile>(StringComparer.Ordinal);
        foreach (var core in cores)
        {
            var key = string.Join(
                '|',
                core.Slices.Select(s =>
                    s.Content.KilogramsPerCubicMetre.ToString(
                        "G4",
                        System.Globalization.CultureInfo.InvariantCulture
                    ) + (s.IsNonDetect ? "<" : "")
                )
            );
            if (
                core.Slices.Select(s => s.Content).Distinct().Count() >= FewestAlike
                && !byContents.TryAdd(key, core)
            )
            {
                var first = byContents[key];
                var sameDepths = first
                    .Slices.Zip(core.Slices)
                    .All(p => Math.Abs(p.First.CentreMm - p.Second.CentreMm) < 0.3);
                problems.Add(
                    DiagnosticCatalogue.CoresAlike,
                    core.Slices[0].Row,
                    "core",
                    core.Core,
                    first.Core,
                    core.Core,
                    core.Slices.Length,
                    sameDepths ? " at the same depths" : " (at other depths)"
                );
            }

            var name = string.Concat(core.Core.Where(c => char.IsLetterOrDigit(c) || c == '.'))
                .ToUpperInvariant();
            if (name.Length > 0 && !byName.TryAdd(name, core))
            {
                problems.Add(
                    DiagnosticCatalogue.CoreNamesClose,
                    core.Slices[0].Row,
                    "core",
                    core.Core,
                    byName[name].Core,
                    core.Core
                );
            }
        }
    }
}
