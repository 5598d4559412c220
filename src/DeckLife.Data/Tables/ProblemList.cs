using System.Collections.Immutable;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Tables;

/// <summary>Collects what is found in one file: all kinds, each listed up to a number.</summary>
internal sealed class ProblemList(string file)
{
    /// <summary>How many of one kind are listed; the rest are counted.</summary>
    public const int ListedPerCode = 100;

    private readonly List<Diagnostic> listed = [];
    private readonly Dictionary<string, int> counts = [];
    private readonly HashSet<(string, string)> once = [];

    public string File => file;

    public bool HasErrors { get; private set; }

    public void Add(
        DiagnosticEntry entry,
        int? row,
        string? column,
        string? value,
        params object[] texts
    )
    {
        if (entry.Severity == Severity.Error)
        {
            HasErrors = true;
        }

        var count = counts[entry.Code] = counts.GetValueOrDefault(entry.Code) + 1;
        if (count > ListedPerCode)
        {
            return;
        }

        listed.Add(
            entry.With([.. texts.Select(t => t is string s ? Shorten(s) : t)]) with
            {
                File = file,
                Row = row,
                Column = column is null ? null : Shorten(column),
                Value = value is null ? null : Shorten(value),
            }
        );
    }

    /// <summary>Adds that the file is larger than what is read of one.</summary>
    /// <param name="most">The most that is read, in words.</param>
    public void AddTooLarge(string most) =>
        Add(DiagnosticCatalogue.FileTooLarge, null, null, null, File, most);

    /// <summary>Adds a problem only the first time for its column.</summary>
    public void AddOnce(
        DiagnosticEntry entry,
        int? row,
        string column,
        string? value,
        params object[] texts
    )
    {
        if (once.Add((entry.Code, column)))
        {
            Add(entry, row, column, value, texts);
        }
    }

    public ImmutableArray<Diagnostic> ToImmutable()
    {
        var all = listed
            .Select((d, i) => (d, i))
            .OrderBy(t => t.d.Row ?? 0)
            .ThenBy(t => t.i)
            .Select(t => t.d)
            .ToList();
        foreach (var (code, count) in counts.OrderBy(c => c.Key, StringComparer.Ordinal))
        {
            if (count > ListedPerCode)
            {
                all.Add(
                    DiagnosticCatalogue.MoreOfTheSame.With(count - ListedPerCode, code) with
                    {
                        File = file,
                    }
                );
            }
        }

        return [.. all];
    }

    // Hostile content must not flood the report: long texts are cut, characters that can't be seen are shown as a dot, line ends among them.
    internal static string Shorten(string text, int longest = 400)
    {
        var cut = text.Length > longest ? string.Concat(text.AsSpan(0, longest), "…") : text;
        return string.Concat(cut.Select(c => char.IsControl(c) || UnseenCharacter.Is(c) ? '·' : c));
    }
}
