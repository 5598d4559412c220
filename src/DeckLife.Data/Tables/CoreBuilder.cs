using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>Gathers the rows of one core, and what they say of the core as a whole.</summary>
internal sealed class CoreBuilder(string name, int firstLine)
{
    private readonly List<ChlorideRow> rows = [];
    private readonly Dictionary<string, (object Value, string Text, int Line)> facts = [];

    public string Name => name;

    public int FirstLine => firstLine;

    public IReadOnlyList<ChlorideRow> Rows => rows;

    public void Add(ChlorideRow row) => rows.Add(row);

    /// <summary>Keeps a fact of the core, and reports a second one that contradicts it.</summary>
    public void State(
        string fact,
        object? value,
        string text,
        int line,
        string column,
        ProblemList problems
    )
    {
        if (value is null)
        {
            return;
        }

        if (!facts.TryGetValue(fact, out var earlier))
        {
            facts[fact] = (value, text, line);
        }
        else if (!earlier.Value.Equals(value))
        {
            problems.Add(
                DiagnosticCatalogue.CoreContradicts,
                line,
                column,
                text,
                name,
                fact,
                text,
                earlier.Text,
                earlier.Line
            );
        }
    }

    public T? Fact<T>(string fact)
        where T : struct => facts.TryGetValue(fact, out var found) ? (T)found.Value : null;

    /// <summary>The slices from the surface down, replicates averaged.</summary>
    public ImmutableArray<ChlorideSlice> Slices(ProblemList problems)
    {
        var slices = ImmutableArray.CreateBuilder<ChlorideSlice>(rows.Count);
        foreach (
            var group in rows.GroupBy(r => r.Slice)
                .OrderBy(g => g.Key.Item1)
                .ThenBy(g => g.Key.Item2)
        )
        {
            var members = group.ToList();
            if (members.Count > 1 && !AreNumbered(members))
            {
                for (var i = 1; i < members.Count; i++)
                {
                    problems.Add(
                        DiagnosticCatalogue.SliceTwice,
                        members[i].Line,
                        null,
                        null,
                        name,
                        members[i].Describe(),
                        members[0].Line
                    );
                }
            }

            if (members.Count > 1 && members.TrueForAll(m => !m.IsNonDetect))
            {
                slices.Add(Mean(members));
                continue;
            }

            if (members.Count > 1)
            {
                problems.Add(
                    DiagnosticCatalogue.ReplicatesApart,
                    members[0].Line,
                    null,
                    null,
                    members[0].Describe(),
                    name
                );
            }

            foreach (var m in members)
            {
                slices.Add(
                    new ChlorideSlice
                    {
                        Row = m.Line,
                        Top = Depth.FromMillimetres(m.TopMm),
                        Bottom = Depth.FromMillimetres(m.BottomMm),
                        Content = ChlorideContent.FromKilogramsPerCubicMetre(m.ContentKgPerM3),
                        IsNonDetect = m.IsNonDetect,
                        StandardDeviation = m.SdKgPerM3,
                        Replicates = m.Count,
                    }
                );
            }
        }

        var all = slices.ToImmutable();
        for (var i = 1; i < all.Length; i++)
        {
            var overlap = all[i - 1].Bottom.Millimetres - all[i].Top.Millimetres;
            var sameSlice = (all[i].Top, all[i].Bottom) == (all[i - 1].Top, all[i - 1].Bottom);
            if (overlap > 0.51 && !sameSlice)
            {
                problems.Add(
                    DiagnosticCatalogue.SlicesOverlap,
                    all[i].Row,
                    null,
                    null,
                    all[i - 1].Row,
                    all[i].Row,
                    name,
                    string.Create(CultureInfo.InvariantCulture, $"{overlap:G3} mm")
                );
            }
        }

        return all;
    }

    private static bool AreNumbered(List<ChlorideRow> members) =>
        members.TrueForAll(m => m.Replicate.Length > 0)
        && members.Select(m => m.Replicate).Distinct(StringComparer.OrdinalIgnoreCase).Count()
            == members.Count;

    // The mean of all single determinations; each row may itself be a mean of several.
    private static ChlorideSlice Mean(List<ChlorideRow> members)
    {
        var n = members.Sum(m => m.Count);
        var mean = members.Sum(m => m.Count * m.ContentKgPerM3) / n;
        double? sd = null;
        if (members.TrueForAll(m => m.Count == 1))
        {
            sd = Math.Sqrt(
                members.Sum(m => (m.ContentKgPerM3 - mean) * (m.ContentKgPerM3 - mean)) / (n - 1)
            );
        }

        return new ChlorideSlice
        {
            Row = members[0].Line,
            Top = Depth.FromMillimetres(members[0].TopMm),
            Bottom = Depth.FromMillimetres(members[0].BottomMm),
            Content = ChlorideContent.FromKilogramsPerCubicMetre(mean),
            StandardDeviation =
                sd > 0 ? sd : members.Select(m => m.SdKgPerM3).FirstOrDefault(s => s is not null),
            Replicates = n,
        };
    }
}
