using System.Collections.Immutable;
using System.Reflection;

namespace DeckLife.Diagnostics;

/// <summary>
/// Every diagnostic that the library gives. Codes: DL1nnn files and quantities, DL2nnn fitting, DL3nnn transport,
/// DL4nnn population, strategies and projection, DL5nnn reports and notebooks, DL6nnn studies, DL7nnn networks.
/// One part file a group.
/// </summary>
public static partial class DiagnosticCatalogue
{
    // Lazy: the entries stand in other part files, whose static initialisers run in no promised order.
    private static readonly Lazy<ImmutableArray<DiagnosticEntry>> Entries = new(() =>
        [
            .. typeof(DiagnosticCatalogue)
                .GetProperties(BindingFlags.Public | BindingFlags.Static)
                .Where(p => p.PropertyType == typeof(DiagnosticEntry))
                .Select(p => (DiagnosticEntry)p.GetValue(null)!)
                .OrderBy(e => e.Code, StringComparer.Ordinal),
        ]
    );

    /// <summary>All entries, ordered by code.</summary>
    public static ImmutableArray<DiagnosticEntry> All => Entries.Value;

    /// <summary>Finds an entry by its code, in any letter case.</summary>
    /// <param name="code">The code, <c>DLnnnn</c>.</param>
    public static DiagnosticEntry? Find(string code) =>
        All.FirstOrDefault(e => e.Code.Equals(code, StringComparison.OrdinalIgnoreCase));
}
