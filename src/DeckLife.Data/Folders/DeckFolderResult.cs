using System.Collections.Immutable;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Folders;

/// <summary>A deck, or all problems that keep its folder from being used.</summary>
/// <param name="Deck">The deck; absent when there is any error.</param>
/// <param name="Problems">Everything found, file by file: errors, warnings, notes.</param>
public sealed record DeckFolderResult(Deck? Deck, ImmutableArray<Diagnostic> Problems)
{
    /// <summary>Whether nothing of the folder could be read at all: it, deck.json or the chloride table is missing.</summary>
    public bool IsUnreadable { get; init; }

    /// <summary>The units that the folder's people think in: US customary where deck.json gives the slab's thickness in inches or feet.</summary>
    public MessageUnits Units { get; init; } = MessageUnits.Canonical;
}
