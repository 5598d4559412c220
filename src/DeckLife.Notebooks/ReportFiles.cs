using System.Text;
using DeckLife.Diagnostics;

namespace DeckLife.Notebooks;

/// <summary>The files of one report: nothing outside their folder is written, nothing is overwritten unasked, nothing is left half-written.</summary>
public sealed class ReportFiles
{
    /// <summary>Name of the page.</summary>
    public const string PageName = "report.html";

    /// <summary>Name of the printed page.</summary>
    public const string PdfName = "report.pdf";

    private readonly string folder;

    private ReportFiles(string folder) => this.folder = folder;

    /// <summary>The page's file.</summary>
    public string Page => Path.Combine(folder, PageName);

    /// <summary>The executed notebook's file.</summary>
    public string Notebook => Path.Combine(folder, NotebookFiles.DeckReport);

    /// <summary>The printed page's file.</summary>
    public string Pdf => Path.Combine(folder, PdfName);

    /// <summary>Checks that a folder can take a report; makes nothing yet.</summary>
    /// <param name="folder">The folder, which need not exist.</param>
    /// <param name="force">Whether a folder that holds something may be written to.</param>
    /// <param name="problem">Why it can't.</param>
    public static ReportFiles? In(string folder, bool force, out Diagnostic? problem)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        problem = null;
        try
        {
            if (File.Exists(folder))
            {
                problem = DiagnosticCatalogue.OutputUnusable.With(folder, "it is a file.");
            }
            else if (
                !force
                && Directory.Exists(folder)
                && Directory.EnumerateFileSystemEntries(folder).Any()
            )
            {
                problem = DiagnosticCatalogue.OutputExists.With(folder);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            problem = DiagnosticCatalogue.OutputUnusable.With(folder, e.Message);
        }

        return problem is null ? new ReportFiles(folder) : null;
    }

    /// <summary>Writes page and notebook: both whole, or an error and neither.</summary>
    /// <param name="page">The page.</param>
    /// <param name="notebook">The executed notebook.</param>
    /// <returns>What went wrong; nothing when both were written.</returns>
    public Diagnostic? Write(string page, NotebookDocument notebook)
    {
        ArgumentNullException.ThrowIfNull(notebook);
        string[] targets = [Page, Notebook];
        var parts = targets.Select(t => t + ".part").ToArray();
        try
        {
            Directory.CreateDirectory(folder);
            File.WriteAllText(parts[0], page, new UTF8Encoding(false));
            File.WriteAllBytes(parts[1], notebook.ToBytes());
            for (var i = 0; i < targets.Length; i++)
            {
                File.Move(parts[i], targets[i], overwrite: true);
            }

            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            foreach (var part in parts.Where(File.Exists))
            {
                File.Delete(part);
            }

            return DiagnosticCatalogue.OutputUnusable.With(folder, e.Message);
        }
    }
}
