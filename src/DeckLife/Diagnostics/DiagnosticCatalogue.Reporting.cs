namespace DeckLife.Diagnostics;

public static partial class DiagnosticCatalogue
{
    /// <summary>The output folder is not empty.</summary>
    public static DiagnosticEntry OutputExists { get; } =
        new(
            "DL5001",
            Severity.Error,
            "Output exists",
            "{0} exists already: nothing is overwritten without --force. Name another folder, or add --force.",
            "A report may have been handed on; its file is not replaced by accident. Name another folder, or add --force."
        );

    /// <summary>A notebook's cell failed.</summary>
    public static DiagnosticEntry NotebookFailed { get; } =
        new(
            "DL5002",
            Severity.Error,
            "Notebook failed",
            "{0}: {1}",
            "The notebook stopped at this cell; the cells after it did not run. What was computed before is kept in the "
                + "page and in the executed notebook, under a banner that says that they are not complete."
        );

    /// <summary>No browser to print with.</summary>
    public static DiagnosticEntry NoBrowser { get; } =
        new(
            "DL5003",
            Severity.Error,
            "No browser",
            "No Chromium was found to print the PDF with. Install chromium, or name a browser's file in {0}; or print the HTML page from any browser.",
            "A PDF is printed from the page by a Chromium that is installed on this machine. Nothing is downloaded for it."
        );

    /// <summary>The browser did not print.</summary>
    public static DiagnosticEntry BrowserFailed { get; } =
        new(
            "DL5004",
            Severity.Error,
            "Printing failed",
            "{0} did not write the PDF: {1}",
            "The page itself is complete: open it in any browser and print it from there."
        );

    /// <summary>The output folder can't be used.</summary>
    public static DiagnosticEntry OutputUnusable { get; } =
        new(
            "DL5005",
            Severity.Error,
            "Output folder unusable",
            "The output folder {0} can't be used: {1}",
            "Name a folder that can be made or written to, and that is not a file."
        );

    /// <summary>Two decks would write to the same place.</summary>
    public static DiagnosticEntry SameDeckName { get; } =
        new(
            "DL5006",
            Severity.Error,
            "Same folder name",
            "Two of the folders are named {0}: their reports would overwrite each other. Report them one by one, or rename one.",
            "With more than one deck, each report goes to a folder of the deck folder's name within the output folder."
        );

    /// <summary>An option has a value that it does not take.</summary>
    public static DiagnosticEntry UnknownChoice { get; } =
        new(
            "DL5007",
            Severity.Error,
            "Unknown choice",
            "{0} does not take '{1}': the choices are {2}.",
            "Write one of the choices as it stands in the message."
        );

    /// <summary>The system refused to read or write a file in the middle of the work.</summary>
    public static DiagnosticEntry FileRefused { get; } =
        new(
            "DL5008",
            Severity.Error,
            "File refused",
            "The work ended, because the system refused a file ({0}). Make room or mend the rights, and run the command again.",
            "A disk is full, rights are missing, a folder is read-only, or what the results were piped to has ended. What bears the name of "
                + "a result is whole; what was half-written is under another name and is never read. Make room or mend the rights, and run the command again."
        );
}
