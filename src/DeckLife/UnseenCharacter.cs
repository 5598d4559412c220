namespace DeckLife;

/// <summary>
/// Characters that do not show themselves but change how the text around them is shown: control characters, which drive a
/// terminal, and marks that turn the direction of writing (Unicode Standard Annex 9), after which numbers read backwards.
/// </summary>
public static class UnseenCharacter
{
    /// <summary>Whether a character is one. Tabs and line ends are not.</summary>
    /// <param name="character">The character.</param>
    public static bool Is(char character) =>
        character is not ('\t' or '\n' or '\r')
        && (
            char.IsControl(character)
            || character is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069')
        );

    /// <summary>The text, each of them replaced.</summary>
    /// <param name="text">Any text.</param>
    /// <param name="by">What stands in its place.</param>
    public static string Replace(string text, char by)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Any(Is) ? string.Concat(text.Select(c => Is(c) ? by : c)) : text;
    }
}
