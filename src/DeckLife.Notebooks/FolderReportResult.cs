using DeckLife.Projection;

namespace DeckLife.Notebooks;

/// <summary>What came of a report on a deck's folder.</summary>
/// <param name="Run">The run of the notebook.</param>
/// <param name="Page">The page made of it; under a banner where a cell failed.</param>
/// <param name="Projection">The projection that the report shows; absent where the run did not get so far.</param>
public sealed record FolderReportResult(NotebookRun Run, string Page, DeckProjection? Projection);
