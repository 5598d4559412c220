namespace DeckLife.Notebooks;

/// <summary>The cell at which a run ended before its time.</summary>
/// <param name="CellNumber">Its place in the notebook, the first cell being 1.</param>
/// <param name="ExecutionCount">The count that Jupyter shows as In [n].</param>
/// <param name="ErrorName">Kind of the error.</param>
/// <param name="Message">The error's text.</param>
public sealed record NotebookFailure(
    int CellNumber,
    int ExecutionCount,
    string ErrorName,
    string Message
)
{
    /// <summary>One line that names the cell and the error.</summary>
    public override string ToString() =>
        System.FormattableString.Invariant(
            $"cell {CellNumber} (In [{ExecutionCount}]) failed: {ErrorName}: {Message}"
        );
}
