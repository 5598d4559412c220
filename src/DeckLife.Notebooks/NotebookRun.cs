namespace DeckLife.Notebooks;

/// <summary>What came of running a notebook.</summary>
/// <param name="Document">The notebook with its outputs, as far as it ran.</param>
/// <param name="Failure">The cell that failed; absent when every cell ran.</param>
public sealed record NotebookRun(NotebookDocument Document, NotebookFailure? Failure)
{
    /// <summary>Exit code for a command: 0, or 3 when a cell failed.</summary>
    public int ExitCode => Failure is null ? 0 : 3;
}
