using System.Collections.Immutable;

namespace DeckLife.Network.Decks;

/// <summary>One deck of the network after its projection: what is known of it, what can be done with it, or why it has no answer.</summary>
public sealed record DeckRecord
{
    /// <summary>Place in the network's list, from 0.</summary>
    public required int Index { get; init; }

    /// <summary>Name of its folder.</summary>
    public required string Folder { get; init; }

    /// <summary>Its name; that of the folder where the name could not be read.</summary>
    public required string Name { get; init; }

    /// <summary>Why it could not be projected; absent when it was.</summary>
    public string? Failure { get; init; }

    /// <summary>Area [0.01 m²]; absent where it could not be read.</summary>
    public long? AreaDm2 { get; init; }

    /// <summary>Calendar year of its survey; absent where it could not be read.</summary>
    public int? SurveyYear { get; init; }

    /// <summary>What it is known from, in words.</summary>
    public string Evidence { get; init; } = "";

    /// <summary>What a reviewer should know, in words: strategies refused, flags.</summary>
    public string Remarks { get; init; } = "";

    /// <summary>Currency and price year of its costs.</summary>
    public string Prices { get; init; } = "";

    /// <summary>What can be done: nothing first; empty when it failed.</summary>
    public ImmutableArray<DeckOption> Options { get; init; } = [];

    /// <summary>Whether it was projected.</summary>
    public bool IsProjected => Failure is null;
}
