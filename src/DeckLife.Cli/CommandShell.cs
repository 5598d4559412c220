using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Parsing;
using DeckLife.Diagnostics;

namespace DeckLife.Cli;

/// <summary>Puts the verbs together, runs one, and turns its end into an exit code.</summary>
internal static class CommandShell
{
    /// <summary>Runs the command.</summary>
    /// <param name="args">The arguments, verb first.</param>
    /// <param name="output">Results go here.</param>
    /// <param name="error">Progress and diagnostics go here.</param>
    /// <returns>One of <see cref="ExitCodes"/>.</returns>
    public static int Run(string[] args, TextWriter output, TextWriter error)
    {
        // "help fit" is as good as "fit --help".
        var parsed = Root(output, error)
            .Parse(args is ["help", .. var verb] ? [.. verb, "--help"] : args);
        if (parsed.Errors.Count > 0)
        {
            foreach (var problem in parsed.Errors)
            {
                error.WriteLine(problem.Message);
            }

            error.WriteLine($"Try: {Names(parsed.CommandResult)} --help");
            return ExitCodes.UnusableInput;
        }

        var configuration = new InvocationConfiguration
        {
            Output = output,
            Error = error,
            EnableDefaultExceptionHandler = false,
            // After Ctrl-C, time to put away what was being written; what is not done by then is cut off.
            ProcessTerminationTimeout = TimeSpan.FromSeconds(10),
        };
        try
        {
            return parsed.Invoke(configuration);
        }
        catch (OperationCanceledException)
        {
            error.WriteLine("interrupted");
            return ExitCodes.Interrupted;
        }
        // A full disk, missing rights, a reader of the output that has gone.
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            var told = DiagnosticCatalogue.FileRefused.With(e.Message);
            error.WriteLine($"{told.Code} error: {told.Text}");
            return ExitCodes.NotCompleted;
        }
    }

    /// <summary>The command with all its verbs.</summary>
    /// <param name="output">Results go here.</param>
    /// <param name="error">Progress and diagnostics go here.</param>
    internal static RootCommand Root(TextWriter output, TextWriter error)
    {
        var root = new RootCommand(
            "Service life of salt-damaged concrete bridge decks: fit chloride profiles, project removal and overlay "
                + "strategies, report. A planning aid; a licensed engineer and local specifications decide.\n\n"
                + "Exit codes: 0 done; 1 check found errors; 2 the input or an argument is unusable; 3 a computation was not "
                + "completed; 130 interrupted."
        );
        foreach (var verb in Verbs())
        {
            root.Subcommands.Add(verb.Create(output, error));
        }

        foreach (var help in root.Options.OfType<HelpOption>())
        {
            help.Action = new VerbHelp((HelpAction)help.Action!);
        }

        return root;
    }

    // The command with the verbs that lead to where the parser stopped.
    private static string Names(CommandResult at) =>
        at.Parent is CommandResult parent ? $"{Names(parent)} {at.Command.Name}" : "decklife";

    private static IEnumerable<IVerb> Verbs() =>
        typeof(CommandShell)
            .Assembly.GetTypes()
            .Where(t =>
                t is { IsClass: true, IsAbstract: false } && t.IsAssignableTo(typeof(IVerb))
            )
            .OrderBy(t => t.Name, StringComparer.Ordinal)
            .Select(t => (IVerb)Activator.CreateInstance(t)!);
}
