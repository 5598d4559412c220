namespace DeckLife.Notebooks;

/// <summary>Finds what a mistyped name was meant to be.</summary>
internal static class NearestName
{
    /// <summary>The name with the fewest edits, the first of equals.</summary>
    public static string? Of(string mistyped, IEnumerable<string> names) =>
        names.MinBy(n => Edits(mistyped.ToUpperInvariant(), n.ToUpperInvariant()));

    private static int Edits(string a, string b)
    {
        var previous = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var current = new int[b.Length + 1];
            current[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var replaced = previous[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                current[j] = Math.Min(replaced, Math.Min(previous[j], current[j - 1]) + 1);
            }

            previous = current;
        }

        return previous[^1];
    }
}
