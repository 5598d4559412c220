namespace DeckLife.Diagnostics;

/// <summary>A kind of diagnostic: its code, its short form and the long text of <c>decklife explain</c>.</summary>
/// <param name="Code">The code, <c>DLnnnn</c>.</param>
/// <param name="Severity">How much it matters.</param>
/// <param name="Title">A few words.</param>
/// <param name="Format">The message, with {0}, {1}… for the values.</param>
/// <param name="Explanation">Why it is reported, what it does to the answer, what to do.</param>
public sealed record DiagnosticEntry(
    string Code,
    Severity Severity,
    string Title,
    string Format,
    string Explanation
)
{
    /// <summary>Makes the diagnostic with its values filled in, in the invariant culture.</summary>
    /// <param name="values">One value for each place in <see cref="Format"/>.</param>
    public Diagnostic With(params object[] values)
    {
        var template = new MessageTemplate(Format, values);
        return new(Code, Severity, template.ToString()) { Template = template };
    }
}
