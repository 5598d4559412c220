namespace DeckLife.Notebooks;

/// <summary>The notebooks that come with the library: they lie in the folder <c>notebooks</c> beside it.</summary>
public static class NotebookFiles
{
    /// <summary>The report notebook.</summary>
    public const string DeckReport = "deck-report.ipynb";

    /// <summary>Loads a notebook by its file name, from any working folder.</summary>
    /// <param name="name">The file name.</param>
    /// <exception cref="NotebookException">There is none of that name; the message says where it was sought.</exception>
    public static NotebookDocument Load(string name)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        var folder = Path.Combine(
            Path.GetDirectoryName(typeof(NotebookFiles).Assembly.Location) is { Length: > 0 } beside
                ? beside
                : AppContext.BaseDirectory,
            "notebooks"
        );
        var path = Path.Combine(folder, Path.GetFileName(name));
        return File.Exists(path)
            ? NotebookDocument.Load(path)
            : throw new NotebookException(
                $"The notebook {name} is missing from {folder}: the command and its notebooks belong together."
            );
    }
}
