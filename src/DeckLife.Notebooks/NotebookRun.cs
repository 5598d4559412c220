using System.Collections.Immutable;

namespace DeckLife.Notebooks;

/// <summary>What came of running a notebook.</summary>
/// <param name="Document">The notebook with its outputs, as far as it ran.</param>
/// <param name="Failure">The cell that failed; absent when every cell ran.</param>
public sealed record NotebookRun(NotebookDocument Document, NotebookFailure? Failure)
{
    /// <summary>Values of the variables that were asked for, by name; those that the cells declared before the run ended.</summary>
    public ImmutableDictionary<string, object> Kept { get; init; } =
        ImmutableDictionary<string, object>.Empty;

    /// <summary>Exit code for a command: 0, or 3 when a cell failed.</summary>
    public int ExitCode => Failure is null ? 0 : 3;
}
