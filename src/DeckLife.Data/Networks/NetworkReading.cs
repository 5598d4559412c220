using System.Collections.Immutable;
using DeckLife.Data.Json;
using DeckLife.Diagnostics;
using DeckLife.Network.Decks;

namespace DeckLife.Data.Networks;

/// <summary>A network as read from its folder, or all problems that keep it from being used.</summary>
public sealed record NetworkReading
{
    /// <summary>The network's folder.</summary>
    public required string Folder { get; init; }

    /// <summary>The network; absent when network.json has an error.</summary>
    public NetworkDefinition? Network { get; init; }

    /// <summary>Everything found in network.json; what is found in a deck's folder goes to that deck.</summary>
    public required ImmutableArray<Diagnostic> Problems { get; init; }

    /// <summary>SHA-256 of network.json, lower-case hexadecimal; empty when it could not be read.</summary>
    public string Sha256 { get; init; } = "";

    internal JsonItem? Common { get; init; }
}
