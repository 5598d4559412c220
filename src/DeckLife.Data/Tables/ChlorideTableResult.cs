using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>The cores of a chloride table, or all problems that keep it from being used.</summary>
public sealed record ChlorideTableResult
{
    /// <summary>The cores in the order of the file; empty when the table can't be used.</summary>
    public required ImmutableArray<CoreProfile> Cores { get; init; }

    /// <summary>Everything found: errors, warnings, notes.</summary>
    public required ImmutableArray<Diagnostic> Problems { get; init; }

    /// <summary>Whether there is no error, so that <see cref="Cores"/> holds the whole table.</summary>
    public bool IsUsable => !Problems.Any(p => p.Severity == Severity.Error);

    /// <summary>The file with its fingerprint; absent when it could not be read.</summary>
    public InputFile? Input { get; init; }

    /// <summary>Acid- or water-soluble, as the table or the options say.</summary>
    public ChlorideExtraction Extraction { get; init; }

    /// <summary>The unit of the depths in the file, for printing beside the canonical one.</summary>
    public Unit? DepthUnit { get; init; }

    /// <summary>The unit of the contents in the file, for printing beside the canonical one; absent when rows differ.</summary>
    public Unit? ContentUnit { get; init; }
}
