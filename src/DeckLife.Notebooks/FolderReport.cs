using DeckLife.Projection;
using DeckLife.Reporting.Notation;

namespace DeckLife.Notebooks;

/// <summary>Runs the report notebook on a deck's folder.</summary>
public static class FolderReport
{
    // A deck of many cores on a slow machine takes minutes; a cell that takes longer than this is stuck.
    private static readonly TimeSpan CellTimeLimit = TimeSpan.FromMinutes(20);

    // The notebook's name for it.
    private const string ProjectionName = "projection";

    /// <summary>Runs the notebook.</summary>
    /// <param name="folder">The deck's folder, as the notebook's parameter will show it.</param>
    /// <param name="deckName">The deck's name, for the page's title.</param>
    /// <param name="units">The units that the page shows first.</param>
    /// <param name="made">When the report is made, in words; absent: not said, and the same input gives the same bytes.</param>
    /// <param name="progress">Told before each cell: its number and how many there are.</param>
    /// <param name="cancellationToken">Ends the run early.</param>
    /// <returns>The run, the page made of it, and the projection that it shows.</returns>
    /// <exception cref="NotebookException">The notebook is missing or can't be used.</exception>
    /// <exception cref="OperationCanceledException">The run was ended early.</exception>
    public static async Task<FolderReportResult> RunAsync(
        string folder,
        string deckName,
        UnitSystem units,
        string? made = null,
        Action<int, int>? progress = null,
        CancellationToken cancellationToken = default
    )
    {
        var run = await new NotebookRunner(
            new()
            {
                Progress = progress,
                CellTimeLimit = CellTimeLimit,
                Keep = [ProjectionName],
            }
        ).RunAsync(NotebookFiles.Load(NotebookFiles.DeckReport), new Dictionary<string, string> { ["folder"] = folder }, cancellationToken).ConfigureAwait(false);
        return new(
            run,
            NotebookPage.Render(run, deckName, units, made),
            run.Kept.GetValueOrDefault(ProjectionName) as DeckProjection
        );
    }
}
