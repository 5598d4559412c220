using DeckLife.Diagnostics;

namespace DeckLife.Cli;

/// <summary>A problem on one line of a terminal.</summary>
internal static class ProblemLine
{
    /// <summary>Code, severity, place and text, quantities in some units.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="units">The units.</param>
    public static string Of(Diagnostic problem, MessageUnits units)
    {
        var place = problem.PlaceBeforeText;
        return $"{problem.Code} {problem.Severity.ToString().ToLowerInvariant()}: {(place.Length > 0 ? place + ": " : "")}{problem.In(units)}";
    }

    /// <summary>Writes problems, one a line.</summary>
    /// <param name="error">Where to.</param>
    /// <param name="problems">The problems.</param>
    /// <param name="units">The units; absent: canonical ones.</param>
    public static void Write(
        TextWriter error,
        IEnumerable<Diagnostic> problems,
        MessageUnits? units = null
    )
    {
        foreach (var problem in problems)
        {
            error.WriteLine(Of(problem, units ?? MessageUnits.Canonical));
        }
    }
}
