using System.Collections.Immutable;
using DeckLife.Projection;

namespace DeckLife.Reporting.Sections;

/// <summary>The cautions on the first screen of every report.</summary>
public static class StandingCautions
{
    /// <summary>What holds for every deck.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        "This is a planning aid. It does not judge the deck's strength or whether it is safe to carry traffic. Local specifications and a licensed engineer decide.",
        "Removal below the top bars needs a structural check, staging and shoring first. Never assume it for post-tensioned or precast decks.",
        "Half-cell and model results are probabilities, not findings. Sound and core the deck before work is let.",
        "Concrete removal, hydrodemolition, blasting and silica dust hurt people: site safety rules apply.",
    ];

    /// <summary>The standing cautions, then those of the deck that they do not already hold.</summary>
    /// <param name="projection">The projection.</param>
    public static ImmutableArray<string> For(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return [.. All, .. projection.Cautions.Where(c => !All.Contains(c))];
    }
}
