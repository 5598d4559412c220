using System.CommandLine;
using System.Globalization;
using DeckLife.Cli.Reports;
using DeckLife.Data.Json;
using DeckLife.Diagnostics;
using DeckLife.Notebooks;
using DeckLife.Reporting.Notation;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife report FOLDER --out DIR</c>: runs the report notebook on a deck's folder.</summary>
internal sealed class ReportVerb : IVerb
{
    private readonly Argument<string[]> _folders = new("folder")
    {
        Description =
            "A deck's folder; with more than one, each report goes to a folder of its own under --out.",
        Arity = ArgumentArity.OneOrMore,
    };

    private readonly Option<string> _out = new("--out")
    {
        Description = "Folder for the report: new, or empty.",
        Required = true,
    };

    private readonly Option<bool> _force = new("--force")
    {
        Description = "Writes to a folder that holds something, over an earlier report.",
    };

    private readonly Option<bool> _pdf = new("--pdf")
    {
        Description = "Prints the page to PDF as well, by a Chromium installed on this machine.",
    };

    private readonly Option<string?> _units = new("--units")
    {
        Description = "Units that the page shows first: us (default) or si; the page has a switch.",
    };

    private readonly Option<string?> _format = new("--format")
    {
        Description = "text (default) or json: how the written files, or the problems, are listed.",
    };

    private readonly Option<bool> _noTimestamp = new("--no-timestamp")
    {
        Description =
            "Leaves the time of making out of the page's foot: the same input gives the same bytes.",
    };

    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var command = new VerbCommand(
            "report",
            "Runs the report notebook on a deck's folder: one HTML page that opens offline, and the executed notebook. "
                + "With several decks each goes to a folder of its own, index.html lists them, and one that can't be read "
                + "does not stop the others. Interrupted, it leaves nothing half-written."
        )
        {
            _folders,
            _out,
            _force,
            _pdf,
            _units,
            _format,
            _noTimestamp,
        };
        command.ShowExamples(
            "decklife report demo-data/quillmarsh-crossing --out out",
            "decklife report demo-data/quillmarsh-crossing --out out --pdf --units si"
        );
        command.SetAction((parsed, cancel) => RunAsync(parsed, output, error, cancel));
        return command;
    }

    private async Task<int> RunAsync(
        ParseResult parsed,
        TextWriter output,
        TextWriter error,
        CancellationToken cancel
    )
    {
        var folders = parsed.GetValue(_folders)!;
        var json = parsed.GetValue(_format) == "json";
        var units = parsed.GetValue(_units) == "si" ? UnitSystem.Si : UnitSystem.UsCustomary;
        var words = units == UnitSystem.Si ? MessageUnits.Canonical : MessageUnits.UsCustomary;
        var force = parsed.GetValue(_force);
        var target = parsed.GetValue(_out)!;
        var problems = Choices(parsed).ToList();
        ReportFiles? root = null;
        if (folders.Length > 1)
        {
            root = ReportFiles.In(target, force, out var unusable);
            problems.AddRange(unusable is null ? [] : [unusable]);
        }

        var jobs = folders
            .Select(f =>
                DeckReportJob.Plan(f, folders.Length == 1 ? target : Under(target, f), force)
            )
            .ToList();
        ProblemLine.Write(error, problems.Concat(jobs.SelectMany(j => j.Problems)), words);

        if (problems.Any(p => p.Severity == Severity.Error) || jobs.All(j => j.Files is null))
        {
            if (json)
            {
                output.WriteLine(
                    ProblemsJson.Write(problems.Concat(jobs.SelectMany(j => j.Problems)).Distinct())
                );
            }

            return ExitCodes.UnusableInput;
        }

        var run = new DeckReportRun(
            units,
            parsed.GetValue(_pdf),
            parsed.GetValue(_noTimestamp) ? null : Now(),
            json ? TextWriter.Null : output,
            error
        );
        var outcomes = new List<DeckReportOutcome>();
        foreach (var job in jobs)
        {
            outcomes.Add(await run.RunAsync(job, cancel).ConfigureAwait(false));
        }

        var code = outcomes.Max(o => o.ExitCode);
        var index = root?.Index;
        if (index is not null && run.WriteIndex(root!, outcomes) is { } unwritten)
        {
            ProblemLine.Write(error, [unwritten], words);
            index = null;
            code = Math.Max(code, ExitCodes.NotCompleted);
        }

        if (json)
        {
            output.WriteLine(ReportListJson.Write(outcomes.Select(o => o.ToEntry()), index));
        }

        return code;
    }

    private static string Now() =>
        TimeProvider
            .System.GetUtcNow()
            .ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);

    private IEnumerable<Diagnostic> Choices(ParseResult parsed)
    {
        if (parsed.GetValue(_units) is { } units and not ("us" or "si"))
        {
            yield return DiagnosticCatalogue.UnknownChoice.With("--units", units, "us, si");
        }

        if (parsed.GetValue(_format) is { } format and not ("text" or "json"))
        {
            yield return DiagnosticCatalogue.UnknownChoice.With("--format", format, "text, json");
        }

        if (parsed.GetValue(_pdf) && PdfPrinter.FindBrowser() is null)
        {
            yield return DiagnosticCatalogue.NoBrowser.With(PdfPrinter.BrowserVariable);
        }

        foreach (
            var twice in parsed
                .GetValue(_folders)!
                .GroupBy(NameOf, StringComparer.OrdinalIgnoreCase)
                .Where(g => g.Count() > 1)
        )
        {
            yield return DiagnosticCatalogue.SameDeckName.With(twice.Key);
        }
    }

    // The last step of a full path is never "..": a report stays under --out whatever the folder is called.
    private static string Under(string target, string folder) =>
        Path.Combine(target, NameOf(folder));

    private static string NameOf(string folder) =>
        Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)))
            is { Length: > 0 } name
            ? name
            : "deck";
}
