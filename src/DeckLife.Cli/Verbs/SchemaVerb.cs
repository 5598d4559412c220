using System.CommandLine;
using DeckLife.Data.Json;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife schema</c>: the JSON Schema of deck.json.</summary>
internal sealed class SchemaVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var what = new Argument<string>("file")
        {
            Description = "Which file's schema: deck.",
            DefaultValueFactory = _ => "deck",
        };
        what.AcceptOnlyFromAmong("deck");
        var command = new Command("schema", "Prints the JSON Schema of deck.json, for editors.")
        {
            what,
        };
        command.SetAction(_ =>
        {
            output.WriteLine(DeckSchema.Write());
            return ExitCodes.Done;
        });
        return command;
    }
}
