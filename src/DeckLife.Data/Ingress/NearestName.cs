namespace DeckLife.Data.Ingress;

/// <summary>Finds the known name that a misspelt one was most likely meant to be.</summary>
internal static class NearestName
{
    /// <summary>The nearest known name, or none when all are far off.</summary>
    public static string? To(string name, IEnumerable<string> known)
    {
        var best = known
            .Select(k =>
                (Name: k, Distance: Distance(name.ToUpperInvariant(), k.ToUpperInvariant()))
            )
            .OrderBy(k => k.Distance)
            .ThenBy(k => k.Name, StringComparer.Ordinal)
            .FirstOrDefault();
        return best.Name is not null && best.Distance <= Math.Max(2, best.Name.Length / 2)
            ? best.Name
            : null;
    }

    // Edits (insertions, deletions, substitutions) that turn one into the other (Levenshtein 1966).
    private static int Distance(string first, string second)
    {
        var row = Enumerable.Range(0, second.Length + 1).ToArray();
        for (var i = 1; i <= first.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= second.Length; j++)
            {
                var above = row[j];
                row[j] = Math.Min(
                    Math.Min(above, row[j - 1]) + 1,
                    diagonal + (first[i - 1] == second[j - 1] ? 0 : 1)
                );
                diagonal = above;
            }
        }

        return row[^1];
    }
}
