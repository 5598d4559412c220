using System.Collections.Immutable;

namespace DeckLife.Network.Decks;

/// <summary>One deck of a network, as the network's own file names it.</summary>
public sealed record NetworkMember
{
    /// <summary>Name of the deck's folder inside the network's.</summary>
    public required string Folder { get; init; }

    /// <summary>Latitude [°], where given.</summary>
    public double? LatitudeDeg { get; init; }

    /// <summary>Longitude [°], where given.</summary>
    public double? LongitudeDeg { get; init; }

    /// <summary>The road that it is on: decks of one corridor share its limit of closures; absent: none.</summary>
    public string? Corridor { get; init; }

    /// <summary>Name of the exposure class that stands in for cores where the folder has none; absent: cores are needed.</summary>
    public string? ExposureClass { get; init; }

    /// <summary>How much a square metre of this deck counts in the program, relative to others (traffic, detour); 1 where not stated.</summary>
    public double Weight { get; init; } = 1;

    /// <summary>Strategies allowed on it, by name; empty: all that its folder or the network gives.</summary>
    public ImmutableArray<string> Strategies { get; init; } = [];
}
