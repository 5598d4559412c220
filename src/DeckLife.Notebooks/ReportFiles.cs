using System.Text;
using DeckLife.Data;
using DeckLife.Diagnostics;
using DeckLife.Reporting.Notation;

namespace DeckLife.Notebooks;

/// <summary>The files of one report: nothing outside their folder is written, nothing is overwritten unasked, nothing is left half-written.</summary>
public sealed class ReportFiles
{
    /// <summary>Name of the page.</summary>
    public const string PageName = "report.html";

    /// <summary>Name of the printed page.</summary>
    public const string PdfName = "report.pdf";

    /// <summary>Name of the page that lists the reports of several decks.</summary>
    public const string IndexName = "index.html";

    // A file is written under its name and this, and renamed when it is whole. What an ended run left of it is never
    // read and never taken for a report.
    private const string PartSuffix = ".part";

    private static readonly string[] Names =
    [
        PageName,
        PdfName,
        IndexName,
        NotebookFiles.DeckReport,
    ];

    private readonly string folder;

    private ReportFiles(string folder) => this.folder = folder;

    /// <summary>The page's file.</summary>
    public string Page => Path.Combine(folder, PageName);

    /// <summary>The executed notebook's file.</summary>
    public string Notebook => Path.Combine(folder, NotebookFiles.DeckReport);

    /// <summary>The list's file.</summary>
    public string Index => Path.Combine(folder, IndexName);

    /// <summary>The printed page's file.</summary>
    public string Pdf => Path.Combine(folder, PdfName);

    /// <summary>Checks that a folder can take a report; leaves nothing there yet.</summary>
    /// <param name="folder">The folder, which need not exist.</param>
    /// <param name="force">Whether a folder that holds something may be written to.</param>
    /// <param name="problem">Why it can't.</param>
    public static ReportFiles? In(string folder, bool force, out Diagnostic? problem)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        problem = OutputFolder.Problem(folder, force, IsPart);
        return problem is null ? new ReportFiles(folder) : null;
    }

    /// <summary>Writes page and notebook: both whole, or an error and neither.</summary>
    /// <param name="page">The page.</param>
    /// <param name="notebook">The executed notebook.</param>
    /// <returns>What went wrong; nothing when both were written.</returns>
    public Diagnostic? Write(string page, NotebookDocument notebook)
    {
        ArgumentNullException.ThrowIfNull(notebook);
        return Write(
            (Page, file => File.WriteAllText(file, page, new UTF8Encoding(false))),
            (Notebook, file => File.WriteAllBytes(file, notebook.ToBytes()))
        );
    }

    /// <summary>Writes the list of the reports of several decks: whole, or an error and nothing.</summary>
    /// <param name="page">The list's page.</param>
    /// <returns>What went wrong; nothing when it was written.</returns>
    public Diagnostic? WriteIndex(string page) =>
        Write((Index, file => File.WriteAllText(file, page, new UTF8Encoding(false))));

    /// <summary>Prints the page that was written: the PDF whole, or an error and none.</summary>
    /// <param name="units">Units of the reader's country: A4 with SI, Letter with US customary ones.</param>
    /// <param name="cancellationToken">Ends the browser early.</param>
    /// <returns>What went wrong; nothing when the PDF was written.</returns>
    public async Task<Diagnostic?> PrintAsync(
        UnitSystem units,
        CancellationToken cancellationToken = default
    )
    {
        var part = Pdf + PartSuffix;
        try
        {
            var problem = await PdfPrinter
                .PrintAsync(Page, part, units, cancellationToken)
                .ConfigureAwait(false);
            if (problem is null)
            {
                File.Move(part, Pdf, overwrite: true);
            }

            return problem;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return DiagnosticCatalogue.OutputUnusable.With(folder, e.Message);
        }
        finally
        {
            Remove([part]);
        }
    }

    private Diagnostic? Write(params (string Target, Action<string> Fill)[] files)
    {
        var parts = files.Select(f => f.Target + PartSuffix).ToArray();
        try
        {
            Directory.CreateDirectory(folder);
            for (var i = 0; i < files.Length; i++)
            {
                files[i].Fill(parts[i]);
            }

            for (var i = 0; i < files.Length; i++)
            {
                File.Move(parts[i], files[i].Target, overwrite: true);
            }

            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return DiagnosticCatalogue.OutputUnusable.With(folder, e.Message);
        }
        finally
        {
            Remove(parts);
        }
    }

    private static void Remove(IEnumerable<string> parts)
    {
        foreach (var part in parts)
        {
            try
            {
                File.Delete(part);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // What can't be removed is not taken for a report either.
            }
        }
    }

    private static bool IsPart(string path) =>
        Names.Contains(
            Path.GetFileName(path) is { } name
            && name.EndsWith(PartSuffix, StringComparison.Ordinal)
                ? name[..^PartSuffix.Length]
                : ""
        );
}
