using System.Collections.Immutable;
using System.Reflection;

namespace DeckLife.Notebooks;

/// <summary>Choices of a notebook run.</summary>
public sealed record NotebookRunnerOptions
{
    /// <summary>Longest time that one cell may take.</summary>
    public TimeSpan CellTimeLimit { get; init; } = TimeSpan.FromMinutes(2);

    /// <summary>Assemblies that cells may use, beside the library's own.</summary>
    public ImmutableArray<Assembly> References { get; init; } = [];

    /// <summary>Names of variables whose values are kept when the run ends.</summary>
    public ImmutableArray<string> Keep { get; init; } = [];

    /// <summary>Told before each code cell: its number and how many cells there are.</summary>
    public Action<int, int>? Progress { get; init; }
}
