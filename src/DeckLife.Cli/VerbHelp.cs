using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace DeckLife.Cli;

/// <summary>Help as usual, and a verb's examples under its own help alone, not where its parent lists it.</summary>
/// <param name="usual">Help as usual.</param>
internal sealed class VerbHelp(HelpAction usual) : SynchronousCommandLineAction
{
    // Who asks for help need not name the folder.
    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        var code = usual.Invoke(parseResult);
        if (parseResult.CommandResult.Command is VerbCommand { Examples.IsEmpty: false } verb)
        {
            var output = parseResult.InvocationConfiguration.Output;
            output.WriteLine("Examples:");
            foreach (var example in verb.Examples)
            {
                output.WriteLine("  " + example);
            }

            output.WriteLine();
        }

        return code;
    }
}
