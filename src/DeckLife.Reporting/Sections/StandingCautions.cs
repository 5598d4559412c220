using System.Collections.Immutable;
using DeckLife.Projection;

namespace DeckLife.Reporting.Sections;

/// <summary>The cautions on the first screen of every report.</summary>
public static class StandingCautions
{
    // A word that only a caution on the same matter would hold, and the caution.
    private static readonly ImmutableArray<(string Word, string Caution)> Standing =
    [
        (
            "planning aid",
            "This is a planning aid. It does not judge the deck's strength or whether it is safe to carry traffic. Local specifications and a licensed engineer decide."
        ),
        (
            "post-tensioned",
            "Removal below the top bars needs a structural check, staging and shoring first. Never assume it for post-tensioned or precast decks."
        ),
        ("probabilities", "Half-cell and model results are probabilities, not findings."),
        (
            "silica",
            "Concrete removal, hydrodemolition, blasting and silica dust hurt people: site safety rules apply."
        ),
    ];

    /// <summary>The projection's own cautions, and before them each standing one that they do not cover.</summary>
    /// <param name="projection">The projection.</param>
    public static ImmutableArray<string> For(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return
        [
            .. Standing
                .Where(s =>
                    !projection.Cautions.Any(c =>
                        c.Contains(s.Word, StringComparison.OrdinalIgnoreCase)
                    )
                )
                .Select(s => s.Caution),
            .. projection.Cautions,
        ];
    }
}
