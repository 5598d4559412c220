using System.Reflection;
using Microsoft.DotNet.Interactive.Events;

namespace DeckLife.Notebooks;

/// <summary>An error of a cell in words that do not change from run to run: no stack, no path.</summary>
internal static class CellError
{
    /// <summary>Name and text of an error.</summary>
    public static (string Name, string Message) Describe(CommandFailed failed)
    {
        var exception = failed.Exception;
        while (
            exception is TargetInvocationException or AggregateException
            && exception.InnerException is not null
        )
        {
            exception = exception.InnerException;
        }

        return
            exception is null
            || exception.GetType().Name.StartsWith("CodeSubmission", StringComparison.Ordinal)
            ? ("CompileError", failed.Message.Trim())
            : (exception.GetType().FullName ?? exception.GetType().Name, exception.Message);
    }
}
