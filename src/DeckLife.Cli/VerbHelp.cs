using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;

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
        var code = Usual(parseResult);
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

    // Usage as usual gives a verb under another the arguments of both: "study <file> merge <file>".
    private int Usual(ParseResult parseResult)
    {
        if (
            parseResult.CommandResult
            is not { Command: var command, Parent: CommandResult { Command: var above } }
        )
        {
            return usual.Invoke(parseResult);
        }

        var output = parseResult.InvocationConfiguration.Output;
        using var text = new StringWriter();
        parseResult.InvocationConfiguration.Output = text;
        var code = usual.Invoke(parseResult);
        parseResult.InvocationConfiguration.Output = output;
        var arguments = string.Concat(above.Arguments.Select(a => $"<{a.Name}> "));
        output.Write(
            arguments.Length == 0
                ? text.ToString()
                : text.ToString()
                    .Replace(
                        $"{above.Name} {arguments}{command.Name}",
                        $"{above.Name} {command.Name}",
                        StringComparison.Ordinal
                    )
        );
        return code;
    }
}
