using System.Collections.Immutable;
using DeckLife.Transport;

namespace DeckLife.Data.Ingress;

/// <summary>A case of <c>decklife ingress</c>: a section and what is asked of it.</summary>
/// <param name="Section">The section.</param>
/// <param name="Queries">What is asked, in the order of the rows.</param>
/// <param name="DepthTexts">Each query's depth as the file writes it.</param>
/// <param name="TimeTexts">Each query's time as the file writes it.</param>
/// <param name="ContentUnit">The unit in which the file gives its contents: the first one met.</param>
public sealed record IngressCase(
    Section Section,
    ImmutableArray<IngressQuery> Queries,
    ImmutableArray<string> DepthTexts,
    ImmutableArray<string> TimeTexts,
    string ContentUnit
);
