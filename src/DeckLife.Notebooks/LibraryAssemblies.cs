using System.Collections.Immutable;
using System.Reflection;

namespace DeckLife.Notebooks;

/// <summary>The assemblies that a cell sees without asking.</summary>
internal static class LibraryAssemblies
{
    // By name: a reference that this assembly's own code does not use is not in its list of references.
    private static readonly string[] Names =
    [
        "DeckLife.Numerics",
        "DeckLife",
        "DeckLife.Survey",
        "DeckLife.Network",
        "DeckLife.Data",
        "DeckLife.Reporting",
        "DeckLife.Notebooks",
    ];

    /// <summary>The library.</summary>
    public static ImmutableArray<Assembly> All { get; } = [.. Names.Select(Assembly.Load)];
}
