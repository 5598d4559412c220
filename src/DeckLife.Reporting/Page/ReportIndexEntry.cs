using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Projection;

namespace DeckLife.Reporting.Page;

/// <summary>A deck on the page that lists the reports of several decks.</summary>
/// <param name="Name">The deck's name; its folder's where the deck could not be read.</param>
/// <param name="Page">The report's page, relative to the list, with forward slashes; absent: no report was made.</param>
/// <param name="Projection">The projection that the report shows, as far as it got.</param>
/// <param name="Problems">Why there is no report, or why it is not complete; empty: it is.</param>
public sealed record ReportIndexEntry(
    string Name,
    string? Page,
    DeckProjection? Projection,
    ImmutableArray<Diagnostic> Problems
);
