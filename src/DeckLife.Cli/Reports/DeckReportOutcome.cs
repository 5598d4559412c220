using System.Collections.Immutable;
using DeckLife.Data.Json;
using DeckLife.Diagnostics;
using DeckLife.Notebooks;
using DeckLife.Projection;
using DeckLife.Reporting.Page;

namespace DeckLife.Cli.Reports;

/// <summary>What came of a report.</summary>
/// <param name="Job">The report that was asked for.</param>
/// <param name="ExitCode">The exit code that it alone would have.</param>
/// <param name="Files">The files that were written.</param>
/// <param name="Failures">Why it was not made or is not complete.</param>
/// <param name="Projection">The projection that it shows.</param>
internal sealed record DeckReportOutcome(
    DeckReportJob Job,
    int ExitCode,
    ImmutableArray<string> Files,
    ImmutableArray<Diagnostic> Failures,
    DeckProjection? Projection
)
{
    /// <summary>For a machine.</summary>
    public ReportListEntry ToEntry() =>
        new(
            Job.Folder,
            Files.IsEmpty ? "not made"
                : Failures.IsEmpty ? "complete"
                : "incomplete",
            Files,
            [.. Job.Problems.Concat(Failures).Distinct()]
        );

    /// <summary>For the page that lists several decks.</summary>
    public ReportIndexEntry ToIndexEntry() =>
        new(
            Job.Name,
            Files.IsEmpty ? null : Job.Target + "/" + ReportFiles.PageName,
            Projection,
            Failures
        );
}
