using System.CommandLine;

namespace DeckLife.Cli;

/// <summary>One verb of the command. Implementations lie under Verbs and are found by reflection.</summary>
internal interface IVerb
{
    /// <summary>Makes the verb's command line: arguments, options, action.</summary>
    /// <param name="output">Results go here.</param>
    /// <param name="error">Progress and diagnostics go here.</param>
    Command Create(TextWriter output, TextWriter error);
}
