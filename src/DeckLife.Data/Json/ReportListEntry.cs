using System.Collections.Immutable;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Json;

/// <summary>A report that was asked for, and what came of it.</summary>
/// <param name="Folder">The deck's folder, as it was given.</param>
/// <param name="Status"><c>complete</c>, <c>incomplete</c> or <c>not made</c>.</param>
/// <param name="Files">The files that were written.</param>
/// <param name="Problems">What went wrong, and what is worth knowing.</param>
public sealed record ReportListEntry(
    string Folder,
    string Status,
    ImmutableArray<string> Files,
    ImmutableArray<Diagnostic> Problems
);
