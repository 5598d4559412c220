using DeckLife.Reporting.Html;

namespace DeckLife.Reporting.Sections;

/// <summary>A sentence in the place of a part that can't be shown.</summary>
/// <param name="text">The sentence.</param>
public sealed class Remark(string text) : IReportPart
{
    /// <inheritdoc/>
    public HtmlFragment ToHtml() => HtmlFragment.Of($"<p>{text}</p>");

    /// <inheritdoc/>
    public string ToText() => text + "\n";
}
