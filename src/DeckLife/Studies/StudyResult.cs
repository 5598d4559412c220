using System.Collections.Immutable;
using DeckLife.Diagnostics;

namespace DeckLife.Studies;

/// <summary>The results of a study.</summary>
public sealed record StudyResult
{
    /// <summary>The study.</summary>
    public required StudyDefinition Study { get; init; }

    /// <summary>One result a method and output, in the study's order.</summary>
    public required ImmutableArray<StudyOutputResult> Results { get; init; }

    /// <summary>What a reader should know.</summary>
    public required ImmutableArray<Diagnostic> Flags { get; init; }
}
