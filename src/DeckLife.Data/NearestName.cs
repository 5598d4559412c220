namespace DeckLife.Data;

/// <summary>Finds the known name that a misspelt one was meant to be.</summary>
public static class NearestName
{
    /// <summary>The nearest of the known names, or none within a third of the length.</summary>
    public static string? Of(string name, IEnumerable<string> known)
    {
        var best = known
            .Select(k =>
                (Name: k, Distance: Distance(name.ToLowerInvariant(), k.ToLowerInvariant()))
            )
            .OrderBy(t => t.Distance)
            .FirstOrDefault();
        return best.Name is not null && best.Distance <= Math.Max(2, name.Length / 3)
            ? best.Name
            : null;
    }

    /// <summary>Insertions, deletions, substitutions and exchanges of neighbours between two names.</summary>
    public static int Distance(string a, string b)
    {
        if (Math.Abs(a.Length - b.Length) > 12 || a.Length > 80 || b.Length > 80)
        {
            return int.MaxValue;
        }

        var previous2 = new int[b.Length + 1];
        var previous = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var current = new int[b.Length + 1];
            current[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var cost = a[i - 1] == b[j - 1] ? 0 : 1;
                current[j] = Math.Min(
                    Math.Min(current[j - 1] + 1, previous[j] + 1),
                    previous[j - 1] + cost
                );
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    current[j] = Math.Min(current[j], previous2[j - 2] + 1);
                }
            }

            (previous2, previous) = (previous, current);
        }

        return previous[b.Length];
    }
}
