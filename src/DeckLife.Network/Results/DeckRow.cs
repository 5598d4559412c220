using DeckLife.Network.Decks;
using DeckLife.Projection;

namespace DeckLife.Network.Results;

/// <summary>One row of the network's table: a deck with its choices, or with the reason why it has none.</summary>
public sealed record DeckRow
{
    /// <summary>The deck as the network lists it.</summary>
    public required NetworkMember Member { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Why it has no answer; absent when it has.</summary>
    public string? Failure { get; init; }

    /// <summary>Area [m²]; absent where it could not be read.</summary>
    public double? AreaM2 { get; init; }

    /// <summary>Year of its survey; absent where it could not be read.</summary>
    public int? SurveyYear { get; init; }

    /// <summary>What it is known from.</summary>
    public string Evidence { get; init; } = "";

    /// <summary>What a reviewer should know.</summary>
    public string Remarks { get; init; } = "";

    /// <summary>Share damaged in the program's first year, before any work; absent when it failed.</summary>
    public PercentileBand? DamagedFirstYear { get; init; }

    /// <summary>When nothing is done.</summary>
    public DeckChoice? Nothing { get; init; }

    /// <summary>In the worst-first program.</summary>
    public DeckChoice? WorstFirst { get; init; }

    /// <summary>In the best program.</summary>
    public DeckChoice? Best { get; init; }
}
