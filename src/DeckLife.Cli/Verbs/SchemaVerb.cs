using System.CommandLine;
using DeckLife.Data.Json;
using DeckLife.Data.Studies;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife schema</c>: the JSON Schema of deck.json or of a study file.</summary>
internal sealed class SchemaVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var what = new Argument<string>("file")
        {
            Description = "Which file's schema: deck or study.",
            DefaultValueFactory = _ => "deck",
        };
        what.AcceptOnlyFromAmong("deck", "study");
        var command = new Command(
            "schema",
            "Prints the JSON Schema of deck.json or of a study file, for editors."
        )
        {
            what,
        };
        command.SetAction(parsed =>
        {
            output.WriteLine(
                parsed.GetValue(what) == "study" ? StudySchema.Write() : DeckSchema.Write()
            );
            return ExitCodes.Done;
        });
        return command;
    }
}
