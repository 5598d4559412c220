using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Notebooks;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Page;

namespace DeckLife.Cli.Reports;

/// <summary>Makes reports, one after the other.</summary>
/// <param name="units">The units that the pages show first.</param>
/// <param name="pdf">Whether the pages are printed as well.</param>
/// <param name="made">When they are made, in words; absent: not said.</param>
/// <param name="output">The files written go here, one a line.</param>
/// <param name="error">Progress and problems go here.</param>
internal sealed class DeckReportRun(
    UnitSystem units,
    bool pdf,
    string? made,
    TextWriter output,
    TextWriter error
)
{
    /// <summary>Makes one report.</summary>
    /// <param name="job">The report.</param>
    /// <param name="cancel">Ends it early: nothing of it is written then.</param>
    /// <exception cref="OperationCanceledException">It was ended early.</exception>
    public async Task<DeckReportOutcome> RunAsync(DeckReportJob job, CancellationToken cancel)
    {
        if (job.Files is not { } files)
        {
            return new(
                job,
                ExitCodes.UnusableInput,
                [],
                [.. job.Problems.Where(p => p.Severity == Severity.Error)],
                null
            );
        }

        var result = await WorkProgress
            .FollowAsync(
                error,
                job.Name,
                (cell, of) =>
                    error.WriteLine(
                        FormattableString.Invariant($"{job.Name}: cell {cell} of {of}")
                    ),
                told =>
                    FolderReport.RunAsync(
                        job.Folder,
                        job.Name,
                        units,
                        made,
                        (cell, of) => told(cell, of),
                        cancel
                    )
            )
            .ConfigureAwait(false);
        var failures = ImmutableArray.CreateBuilder<Diagnostic>();
        var written = ImmutableArray.CreateBuilder<string>();
        if (result.Run.Failure is { } failure)
        {
            failures.Add(
                DiagnosticCatalogue.NotebookFailed.With(result.Run.Document.Name, failure)
            );
        }

        // Between the last cell and the first file: from here on a report is whole or not there.
        cancel.ThrowIfCancellationRequested();
        if (files.Write(result.Page, result.Run.Document) is { } unwritten)
        {
            failures.Add(unwritten);
        }
        else
        {
            written.Add(files.Page);
            written.Add(files.Notebook);
            if (pdf)
            {
                if (await files.PrintAsync(units, cancel).ConfigureAwait(false) is { } unprinted)
                {
                    failures.Add(unprinted);
                }
                else
                {
                    written.Add(files.Pdf);
                }
            }
        }

        ProblemLine.Write(
            error,
            failures,
            units == UnitSystem.Si ? MessageUnits.Canonical : MessageUnits.UsCustomary
        );

        foreach (var file in written)
        {
            output.WriteLine(file);
        }

        return new(
            job,
            failures.Count == 0 ? ExitCodes.Done : ExitCodes.NotCompleted,
            written.ToImmutable(),
            failures.ToImmutable(),
            result.Projection
        );
    }

    /// <summary>Writes the page that lists the reports.</summary>
    /// <param name="root">Where it goes.</param>
    /// <param name="outcomes">What came of each.</param>
    /// <returns>What went wrong; nothing when it was written.</returns>
    public Diagnostic? WriteIndex(ReportFiles root, IEnumerable<DeckReportOutcome> outcomes)
    {
        var page = ReportIndex.Render([.. outcomes.Select(o => o.ToIndexEntry())], units, made);
        if (root.WriteIndex(page) is { } unwritten)
        {
            return unwritten;
        }

        output.WriteLine(root.Index);
        return null;
    }
}
