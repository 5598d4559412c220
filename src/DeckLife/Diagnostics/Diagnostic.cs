namespace DeckLife.Diagnostics;

/// <summary>One thing that was found wrong or worth knowing, with its code in the <see cref="DiagnosticCatalogue"/>.</summary>
/// <param name="Code">The code, <c>DLnnnn</c>.</param>
/// <param name="Severity">How much it matters.</param>
/// <param name="Text">What is wrong, the value, what is allowed, what to do.</param>
public sealed record Diagnostic(string Code, Severity Severity, string Text)
{
    /// <summary>The file, where there is one.</summary>
    public string? File { get; init; }

    /// <summary>The line of the file, the head counted as line 1.</summary>
    public int? Row { get; init; }

    /// <summary>The column's head.</summary>
    public string? Column { get; init; }

    /// <summary>The value as it stands in the file.</summary>
    public string? Value { get; init; }

    /// <summary>File, row and column in words, those that there are; empty where there are none.</summary>
    public string Place =>
        string.Join(
            ", ",
            new[]
            {
                File,
                Row is { } row ? FormattableString.Invariant($"row {row}") : null,
                Column,
            }.Where(p => !string.IsNullOrEmpty(p))
        );

    /// <summary>The place to write before the text: without a file or a column that the text begins with, which would be said twice.</summary>
    public string PlaceBeforeText =>
        (
            this with
            {
                File = Begins(File) ? null : File,
                Column = Begins(Column) ? null : Column,
            }
        ).Place;

    /// <summary>The text with its values apart; absent: the text alone is known.</summary>
    public MessageTemplate? Template { get; init; }

    /// <summary>The text with its quantities in some units.</summary>
    /// <param name="units">The units.</param>
    public string In(MessageUnits units) => Template?.In(units) ?? Text;

    private bool Begins(string? word) =>
        word is not null && Text.StartsWith(word, StringComparison.Ordinal);
}
