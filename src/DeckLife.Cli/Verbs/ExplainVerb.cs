using System.CommandLine;
using DeckLife.Diagnostics;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife explain CODE</c>: the long text of a diagnostic; without a code, the list of all.</summary>
internal sealed class ExplainVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var code = new Argument<string?>("code")
        {
            Description = "A code such as DL1015; absent: lists all codes.",
            DefaultValueFactory = _ => null,
        };
        var command = new VerbCommand(
            "explain",
            "Explains a diagnostic: why it is given, what it does to the answer, what to do."
        )
        {
            code,
        };
        command.ShowExamples("decklife explain DL4004", "decklife explain");
        command.SetAction(parsed =>
        {
            var asked = parsed.GetValue(code);
            if (asked is null)
            {
                foreach (var entry in DiagnosticCatalogue.All)
                {
                    output.WriteLine($"{entry.Code}  {Name(entry.Severity), -7}  {entry.Title}");
                }

                return ExitCodes.Done;
            }

            if (DiagnosticCatalogue.Find(asked.Trim()) is not { } found)
            {
                error.WriteLine(
                    $"'{asked}' is not a code of this version: codes are DL and four digits. decklife explain lists them."
                );
                return ExitCodes.UnusableInput;
            }

            output.WriteLine($"{found.Code}  {found.Title} ({Name(found.Severity)})");
            output.WriteLine();
            output.WriteLine(found.Explanation);
            output.WriteLine();
            output.WriteLine("The message: " + found.Format);
            return ExitCodes.Done;
        });
        return command;
    }

    private static string Name(Severity severity) => severity.ToString().ToLowerInvariant();
}
