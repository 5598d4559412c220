using DeckLife.Reporting.Html;

namespace DeckLife.Reporting;

/// <summary>A part of a report that can show itself on a page and on a terminal.</summary>
public interface IReportPart
{
    /// <summary>The part for a page.</summary>
    HtmlFragment ToHtml();

    /// <summary>The part for a terminal, in canonical units.</summary>
    string ToText();
}
