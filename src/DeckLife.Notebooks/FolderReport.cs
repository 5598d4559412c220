using DeckLife.Reporting.Notation;

namespace DeckLife.Notebooks;

/// <summary>Runs the report notebook on a deck's folder.</summary>
public static class FolderReport
{
    // A deck of many cores on a slow machine takes minutes; a cell that takes longer than this is stuck.
    private static readonly TimeSpan CellTimeLimit = TimeSpan.FromMinutes(20);

    /// <summary>Runs the notebook.</summary>
    /// <param name="folder">The deck's folder, as the notebook's parameter will show it.</param>
    /// <param name="deckName">The deck's name, for the page's title.</param>
    /// <param name="units">The units that the page shows first.</param>
    /// <param name="progress">Told before each cell: its number and how many there are.</param>
    /// <param name="cancellationToken">Ends the run early.</param>
    /// <returns>The run, and the page made of it; under a banner where a cell failed.</returns>
    /// <exception cref="NotebookException">The notebook is missing or can't be used.</exception>
    /// <exception cref="OperationCanceledException">The run was ended early.</exception>
    public static async Task<(NotebookRun Run, string Page)> RunAsync(
        string folder,
        string deckName,
        UnitSystem units,
        Action<int, int>? progress = null,
        CancellationToken cancellationToken = default
    )
    {
        var run = await new NotebookRunner(
            new() { Progress = progress, CellTimeLimit = CellTimeLimit }
        )
            .RunAsync(
                NotebookFiles.Load(NotebookFiles.DeckReport),
                new Dictionary<string, string> { ["folder"] = folder },
                cancellationToken
            )
            .ConfigureAwait(false);
        return (run, NotebookPage.Render(run, deckName, units));
    }
}
