using System.CommandLine;
using DeckLife.Data.Folders;
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

    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var command = new Command(
            "report",
            "Runs the report notebook on a deck's folder: one HTML page that opens offline, and the executed notebook.\n\n"
                + "Examples:\n"
                + "  decklife report demo-data/quillmarsh-crossing --out out\n"
                + "  decklife report decks/a decks/b --out reports --pdf --units si"
        )
        {
            _folders,
            _out,
            _force,
            _pdf,
            _units,
            _format,
        };
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
        var problems = Choices(parsed).ToList();
        var plans = new List<Plan>();
        foreach (var folder in folders)
        {
            cancel.ThrowIfCancellationRequested();
            var read = DeckFolder.Read(folder);
            problems.AddRange(read.Problems);
            if (read.Deck is null)
            {
                continue;
            }

            var target =
                folders.Length == 1
                    ? parsed.GetValue(_out)!
                    : Path.Combine(parsed.GetValue(_out)!, NameOf(folder));
            if (ReportFiles.In(target, parsed.GetValue(_force), out var problem) is { } files)
            {
                plans.Add(new(folder, read.Deck.Name, files));
            }
            else
            {
                problems.Add(problem!);
            }
        }

        foreach (var problem in problems)
        {
            error.WriteLine(Line(problem));
        }

        if (plans.Count < folders.Length || problems.Any(p => p.Severity == Severity.Error))
        {
            if (json)
            {
                output.WriteLine(ProblemsJson.Write(problems));
            }

            return ExitCodes.UnusableInput;
        }

        var code = ExitCodes.Done;
        foreach (var plan in plans)
        {
            code = Math.Max(
                code,
                await ReportAsync(plan, parsed, output, error, cancel).ConfigureAwait(false)
            );
        }

        return code;
    }

    private async Task<int> ReportAsync(
        Plan plan,
        ParseResult parsed,
        TextWriter output,
        TextWriter error,
        CancellationToken cancel
    )
    {
        var units = parsed.GetValue(_units) == "si" ? UnitSystem.Si : UnitSystem.UsCustomary;
        var (run, page) = await FolderReport
            .RunAsync(
                plan.Folder,
                plan.DeckName,
                units,
                (cell, of) =>
                    error.WriteLine(
                        FormattableString.Invariant($"{plan.DeckName}: cell {cell} of {of}")
                    ),
                cancel
            )
            .ConfigureAwait(false);
        if (run.Failure is { } failure)
        {
            error.WriteLine(
                Line(DiagnosticCatalogue.NotebookFailed.With(run.Document.Name, failure))
            );
        }

        if (plan.Files.Write(page, run.Document) is { } problem)
        {
            error.WriteLine(Line(problem));
            return ExitCodes.NotCompleted;
        }

        output.WriteLine(plan.Files.Page);
        output.WriteLine(plan.Files.Notebook);
        if (parsed.GetValue(_pdf))
        {
            if (
                await PdfPrinter
                    .PrintAsync(plan.Files.Page, plan.Files.Pdf, cancel)
                    .ConfigureAwait(false) is
                { } unprinted
            )
            {
                error.WriteLine(Line(unprinted));
                return ExitCodes.NotCompleted;
            }

            output.WriteLine(plan.Files.Pdf);
        }

        return run.ExitCode;
    }

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

    private static string NameOf(string folder) =>
        Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)));

    private static string Line(Diagnostic problem)
    {
        var where = string.Join(
            ", ",
            new[]
            {
                problem.File,
                problem.Row is { } row ? FormattableString.Invariant($"row {row}") : null,
                problem.Column,
            }.Where(p => !string.IsNullOrEmpty(p))
        );
        var severity = problem.Severity switch
        {
            Severity.Note => "note",
            Severity.Warning => "warning",
            _ => "error",
        };
        return where.Length > 0
            ? $"{problem.Code} {severity}: {where}: {problem.Text}"
            : $"{problem.Code} {severity}: {problem.Text}";
    }

    private sealed record Plan(string Folder, string DeckName, ReportFiles Files);
}
