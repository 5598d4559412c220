using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Html;

namespace DeckLife.Reporting.Sections;

/// <summary>The profiles of all cores side by side, on the same axes.</summary>
/// <param name="cores">The fits.</param>
/// <param name="deck">The deck, on a report that lists what its numbers rest on; absent: charts without links there.</param>
public sealed class ProfileGallery(ImmutableArray<ProfileFit> cores, Deck? deck = null)
    : IReportPart
{
    /// <inheritdoc/>
    public HtmlFragment ToHtml() =>
        HtmlFragment.Of(
            $"<div class=\"dl-gallery\">{HtmlFragment.Join(Charts().Select(c => c.ToHtml()))}</div>"
        );

    /// <inheritdoc/>
    public string ToText() => string.Join("\n", Charts().Select(c => c.ToText()));

    private IEnumerable<ReportChart> Charts()
    {
        if (cores.IsDefaultOrEmpty)
        {
            return [];
        }

        var largest = cores.Max(ProfileChart.Largest);
        var deepest = cores.Max(ProfileChart.Deepest);
        return cores.Select(c =>
            ProfileChart.Draw(c, largest, deepest) with
            {
                Basis = deck is null ? null : SourceAnchor.Sampled(deck, c.Profile),
            }
        );
    }
}
