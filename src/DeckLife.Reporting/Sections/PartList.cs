using System.Collections.Immutable;
using DeckLife.Reporting.Html;

namespace DeckLife.Reporting.Sections;

/// <summary>Parts one after the other, or side by side where there is room.</summary>
/// <param name="parts">The parts; absent ones are left out.</param>
/// <param name="sideBySide">Whether they stand side by side on a wide page.</param>
public sealed class PartList(IEnumerable<IReportPart?> parts, bool sideBySide = false) : IReportPart
{
    private readonly ImmutableArray<IReportPart> parts = [.. parts.OfType<IReportPart>()];

    /// <inheritdoc/>
    public HtmlFragment ToHtml()
    {
        var all = HtmlFragment.Join(parts.Select(p => p.ToHtml()));
        return sideBySide ? HtmlFragment.Of($"<div class=\"dl-pair\">{all}</div>") : all;
    }

    /// <inheritdoc/>
    public string ToText() => string.Join("\n", parts.Select(p => p.ToText()));
}
