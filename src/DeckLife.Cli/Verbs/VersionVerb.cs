using System.CommandLine;
using System.Reflection;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife version</c>: version and build.</summary>
internal sealed class VersionVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var command = new VerbCommand("version", "Prints the version and the build.");
        command.ShowExamples("decklife version");
        command.SetAction(_ =>
        {
            output.WriteLine(
                typeof(VersionVerb)
                    .Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()
                    ?.InformationalVersion
            );
            return ExitCodes.Done;
        });
        return command;
    }
}
