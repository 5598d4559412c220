using DeckLife.Diagnostics;
using DeckLife.Reporting.Notation;

namespace DeckLife.Cli.Reports;

/// <summary>A problem on one line of a terminal.</summary>
internal static class ProblemLine
{
    /// <summary>Code, severity, place and text, quantities in some units.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="units">The units.</param>
    public static string Of(Diagnostic problem, UnitSystem units)
    {
        var where = problem.Place;
        var severity = problem.Severity switch
        {
            Severity.Note => "note",
            Severity.Warning => "warning",
            _ => "error",
        };
        var text = problem.In(
            units == UnitSystem.Si ? MessageUnits.Canonical : MessageUnits.UsCustomary
        );
        return where.Length > 0
            ? $"{problem.Code} {severity}: {where}: {text}"
            : $"{problem.Code} {severity}: {text}";
    }
}
