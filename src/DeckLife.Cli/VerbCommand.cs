using System.Collections.Immutable;
using System.CommandLine;

namespace DeckLife.Cli;

/// <summary>A verb with examples, which end its help.</summary>
/// <param name="name">Its name.</param>
/// <param name="description">What it does.</param>
internal sealed class VerbCommand(string name, string description) : Command(name, description)
{
    /// <summary>Whole command lines; each runs as it stands in the folder that holds the demonstration data.</summary>
    public ImmutableArray<string> Examples { get; private set; } = [];

    /// <summary>Gives the verb its examples.</summary>
    /// <param name="examples">Whole command lines.</param>
    public void ShowExamples(params string[] examples) => Examples = [.. examples];
}
