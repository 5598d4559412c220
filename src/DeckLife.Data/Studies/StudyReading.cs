using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>What reading a study gave: the study, or every problem that keeps it from being used.</summary>
/// <param name="Study">The study; absent where there are errors.</param>
/// <param name="Problems">All problems found.</param>
public sealed record StudyReading(StudyDefinition? Study, ImmutableArray<Diagnostic> Problems)
{
    /// <summary>The units of the study's messages: those of its deck's folder; else US customary where an input is in inches.</summary>
    public MessageUnits Units { get; init; } = MessageUnits.Canonical;
}
