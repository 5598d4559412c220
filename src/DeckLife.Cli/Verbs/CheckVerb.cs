using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using DeckLife.Data.Folders;
using DeckLife.Data.Json;
using DeckLife.Diagnostics;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife check FOLDER</c>: every problem of a deck's folder at once.</summary>
internal sealed class CheckVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var folder = new Argument<string>("folder") { Description = "The deck's folder." };
        var format = new Option<string>("--format")
        {
            Description = "text or json.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", "json");
        var command = new VerbCommand(
            "check",
            "Reads everything in a deck's folder and lists every problem at once."
        )
        {
            folder,
            format,
        };
        command.ShowExamples(
            "decklife check demo-data/quillmarsh-crossing",
            "decklife check demo-data/quillmarsh-crossing --format json"
        );
        command.SetAction(parsed =>
        {
            var path = parsed.GetValue(folder)!;
            var json = parsed.GetValue(format) == "json";
            if (string.IsNullOrWhiteSpace(path))
            {
                error.WriteLine("Name the deck's folder.");
                return ExitCodes.UnusableInput;
            }

            var result = DeckFolder.Read(path);
            if (json)
            {
                output.WriteLine(ProblemsJson.Write(result.Problems));
            }
            else
            {
                // What can't be read at all is no result: its reasons go where diagnostics go.
                Write(result, result.IsUnreadable ? error : output);
            }

            return result.IsUnreadable ? ExitCodes.UnusableInput
                : result.Problems.Any(p => p.Severity == Severity.Error) ? ExitCodes.ProblemsFound
                : ExitCodes.Done;
        });
        return command;
    }

    private static void Write(DeckFolderResult result, TextWriter output)
    {
        foreach (var group in result.Problems.GroupBy(p => p.File ?? ""))
        {
            output.WriteLine(group.Key);
            foreach (var problem in group)
            {
                // The file stands above.
                var place = (problem with { File = null }).PlaceBeforeText;
                output.WriteLine(
                    $"  {problem.Severity.ToString().ToLowerInvariant()} {problem.Code}{(place.Length > 0 ? " at " + place : "")}: {problem.In(result.Units)}"
                );
            }

            output.WriteLine();
        }

        output.WriteLine(Summary(result));
    }

    private static string Summary(DeckFolderResult result)
    {
        var errors = result.Problems.Count(p => p.Severity == Severity.Error);
        var warnings = result.Problems.Count(p => p.Severity == Severity.Warning);
        if (errors > 0)
        {
            return $"{Count(errors, "error")}, {Count(warnings, "warning")}. Nothing is computed from this folder until the errors are mended. decklife explain CODE says more about each.";
        }

        var deck = result.Deck!;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{deck.Name}: {Count(deck.Cores.Length, "core")}, {Count(deck.Covers.Length, "cover reading")}, {Count(deck.HalfCells.Length, "half-cell node")}, {Count(deck.Soundings.Length, "sounded area")}. No errors, {Count(warnings, "warning")}."
        );
    }

    private static string Count(int count, string what) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{(count == 0 ? "no" : count)} {what}{(count == 1 ? "" : "s")}"
        );
}
