using System.Collections.Immutable;
using DeckLife.Data.Folders;
using DeckLife.Diagnostics;
using DeckLife.Notebooks;

namespace DeckLife.Cli.Reports;

/// <summary>A report to be made.</summary>
/// <param name="Folder">The deck's folder, as it was given.</param>
/// <param name="Name">The deck's name; its folder's where the deck can't be read.</param>
/// <param name="Target">Name of the folder that the report goes to.</param>
/// <param name="Files">The report's files; absent: it can't be made.</param>
/// <param name="Problems">What reading the folder found.</param>
internal sealed record DeckReportJob(
    string Folder,
    string Name,
    string Target,
    ReportFiles? Files,
    ImmutableArray<Diagnostic> Problems
)
{
    /// <summary>Reads the folder and looks at where the report goes; writes nothing.</summary>
    /// <param name="folder">The deck's folder.</param>
    /// <param name="target">The report's folder.</param>
    /// <param name="force">Whether a folder that holds something may be written to.</param>
    public static DeckReportJob Plan(string folder, string target, bool force)
    {
        var read = DeckFolder.Read(folder);
        var problems = read.Problems.ToBuilder();
        Diagnostic? problem = null;
        var files = read.Deck is null ? null : ReportFiles.In(target, force, out problem);
        if (problem is not null)
        {
            problems.Add(problem);
        }

        return new(
            folder,
            read.Deck?.Name ?? Path.GetFileName(Path.TrimEndingDirectorySeparator(folder)),
            Path.GetFileName(target),
            files,
            problems.ToImmutable()
        );
    }
}
