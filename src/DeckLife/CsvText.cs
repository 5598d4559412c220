namespace DeckLife;

/// <summary>Words for a CSV file that may be opened in a spreadsheet; numbers do not pass through here.</summary>
public static class CsvText
{
    /// <summary>The text, with an apostrophe before it where a spreadsheet would take it for a formula or a command.</summary>
    /// <param name="text">Any text.</param>
    public static string Harmless(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        // A spreadsheet looks at the first sign even inside quotes; it may skip spaces before it.
        var start = text.AsSpan().TrimStart(' ');
        return start.Length > 0 && "=+-@\t\r\n|%".Contains(start[0], StringComparison.Ordinal)
            ? "'" + text
            : text;
    }

    /// <summary>The harmless text as one field: quoted where it holds a separator, a quote or a line end (RFC 4180).</summary>
    /// <param name="text">Any text.</param>
    public static string Field(string text)
    {
        var safe = Harmless(text);
        return safe.AsSpan().IndexOfAny(",\"\r\n;") >= 0
            ? "\"" + safe.Replace("\"", "\"\"", StringComparison.Ordinal) + "\""
            : safe;
    }
}
