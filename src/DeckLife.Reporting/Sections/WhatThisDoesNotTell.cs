using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Reporting.Html;

namespace DeckLife.Reporting.Sections;

/// <summary>What the reader might take from a report but should not.</summary>
/// <param name="projection">The projection.</param>
public sealed class WhatThisDoesNotTell(DeckProjection projection) : IReportPart
{
    /// <inheritdoc/>
    public HtmlFragment ToHtml() =>
        HtmlFragment.Of(
            $"<ul>{HtmlFragment.Join(Items().Select(i => HtmlFragment.Of($"<li>{i}</li>")))}</ul>"
        );

    /// <inheritdoc/>
    public string ToText() => string.Concat(Items().Select(i => $"- {i}\n"));

    private ImmutableArray<string> Items()
    {
        var items = ImmutableArray.CreateBuilder<string>();
        items.Add(
            "Strength, fatigue, deflection, or whether the deck may carry its traffic. Damage here means delaminated or spalled concrete over corroding top bars, nothing else."
        );
        items.Add(
            "Damage from freezing and thawing, alkali-aggregate reaction, fire or impact, and corrosion that starts from the underside or at leaking joints, unless the surveys caught it."
        );
        items.Add(
            "What a single spot will do. The curves are shares of an area; the bands are what is not known about the whole deck."
        );
        items.Add(
            "Errors of the model's own form. The band holds the spread of the inputs within the model, not the chance that the model itself is wrong for this deck."
        );
        if (
            projection.Deck.HalfCells.IsDefaultOrEmpty && projection.Deck.Soundings.IsDefaultOrEmpty
        )
        {
            items.Add(
                "Whether the projection agrees with the deck of today: no sounding and no half-cell survey came with this folder."
            );
        }

        if (projection.Deck.Prices is null)
        {
            items.Add("Cost: the folder gives no prices.");
        }

        return items.ToImmutable();
    }
}
