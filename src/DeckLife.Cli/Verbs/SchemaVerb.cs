using System.CommandLine;
using DeckLife.Data.Json;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife schema</c>: the JSON Schema of deck.json or network.json.</summary>
internal sealed class SchemaVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var what = new Argument<string>("file")
        {
            Description = "Which file's schema: deck or network.",
            DefaultValueFactory = _ => "deck",
        };
        what.AcceptOnlyFromAmong("deck", "network");
        var command = new Command(
            "schema",
            "Prints the JSON Schema of deck.json or network.json, for editors."
        )
        {
            what,
        };
        command.SetAction(parsed =>
        {
            output.WriteLine(
                parsed.GetValue(what) == "network" ? DeckSchema.WriteNetwork() : DeckSchema.Write()
            );
            return ExitCodes.Done;
        });
        return command;
    }
}
