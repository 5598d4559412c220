namespace DeckLife.Reporting.Html;

/// <summary>A piece of HTML that is already safe: every text in it was escaped when it was put in.</summary>
/// <param name="Markup">The markup.</param>
public readonly record struct HtmlFragment(string Markup)
{
    /// <summary>Nothing.</summary>
    public static HtmlFragment Empty { get; } = new("");

    /// <summary>Text, escaped.</summary>
    /// <param name="text">Any text, from an input file or not.</param>
    public static HtmlFragment FromText(string? text) => new(HtmlEscape.Text(text));

    /// <summary>Markup with places to fill: a text or a number in a place is escaped, a fragment goes in as it is.</summary>
    /// <param name="template">The markup, as an interpolated string.</param>
    public static HtmlFragment Of(HtmlTemplate template) => new(template.ToMarkup());

    /// <summary>Fragments, one after the other.</summary>
    /// <param name="parts">The fragments.</param>
    public static HtmlFragment Join(IEnumerable<HtmlFragment> parts) =>
        new(string.Concat(parts.Select(p => p.Markup)));

    /// <summary>The markup.</summary>
    public override string ToString() => Markup ?? "";
}
