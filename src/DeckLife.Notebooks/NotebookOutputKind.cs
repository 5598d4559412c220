namespace DeckLife.Notebooks;

/// <summary>What an output of a cell is.</summary>
public enum NotebookOutputKind
{
    /// <summary>Something displayed while the cell ran.</summary>
    Display,

    /// <summary>The value of the cell's last expression.</summary>
    Result,

    /// <summary>Text written to standard output.</summary>
    StandardOutput,

    /// <summary>Text written to standard error.</summary>
    StandardError,

    /// <summary>The error that ended the cell.</summary>
    Error,
}
