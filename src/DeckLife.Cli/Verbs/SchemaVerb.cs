using System.CommandLine;
using DeckLife.Data.Json;
using DeckLife.Data.Studies;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife schema</c>: the JSON Schema of deck.json, network.json or a study file.</summary>
internal sealed class SchemaVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var what = new Argument<string>("file")
        {
            Description = "Which file's schema: deck, network or study.",
            DefaultValueFactory = _ => "deck",
        };
        what.AcceptOnlyFromAmong("deck", "network", "study");
        var command = new VerbCommand(
            "schema",
            "Prints the JSON Schema of deck.json, network.json or a study file, for editors."
        )
        {
            what,
        };
        command.ShowExamples("decklife schema network");
        command.SetAction(parsed =>
        {
            output.WriteLine(
                parsed.GetValue(what) switch
                {
                    "network" => DeckSchema.WriteNetwork(),
                    "study" => StudySchema.Write(),
                    _ => DeckSchema.Write(),
                }
            );
            return ExitCodes.Done;
        });
        return command;
    }
}
