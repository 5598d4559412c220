using System.Collections.Immutable;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>One input of a deck: its value, where a file states it, and what the value rests on.</summary>
/// <param name="Anchor">Where it stands on a page.</param>
/// <param name="Name">What it is.</param>
/// <param name="Value">Its value with the unit.</param>
/// <param name="Paths">Where a deck's files may state it, the likeliest first.</param>
/// <param name="Source">What the value rests on, as the deck says; empty: it does not say.</param>
/// <param name="Default">Why the value is what it is where no file states it.</param>
/// <param name="AssumedAbout">Subject of the assumption that says so, where there is one.</param>
internal sealed record InputRow(
    string Anchor,
    string Name,
    ReportCell Value,
    ImmutableArray<string> Paths,
    string Source = "",
    string Default = "",
    string? AssumedAbout = null
)
{
    /// <summary>The field that states it; nothing where none does.</summary>
    public StatedField? Field(Deck deck) =>
        Paths
            .Select(path => deck.StatedFields.FirstOrDefault(f => f.Path == path))
            .FirstOrDefault(f => f is not null);
}
