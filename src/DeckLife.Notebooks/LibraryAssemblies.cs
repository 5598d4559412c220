using System.Collections.Immutable;
using System.Reflection;

namespace DeckLife.Notebooks;

/// <summary>The assemblies that a cell sees without asking.</summary>
internal static class LibraryAssemblies
{
    /// <summary>The library, and what stands in its public signatures.</summary>
    public static ImmutableArray<Assembly> All { get; } =
    [
        typeof(DeckLife.Deck).Assembly,
        typeof(DeckLife.Reporting.IReportPart).Assembly,
        typeof(LibraryAssemblies).Assembly,
        .. typeof(LibraryAssemblies)
            .Assembly.GetReferencedAssemblies()
            .Concat(typeof(DeckLife.Deck).Assembly.GetReferencedAssemblies())
            .Where(n => n.Name!.StartsWith("DeckLife", StringComparison.Ordinal))
            .Select(Assembly.Load)
            .Distinct(),
    ];
}
