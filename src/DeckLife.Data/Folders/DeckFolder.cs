using System.Collections.Immutable;
using DeckLife.Data.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Folders;

/// <summary>Reads a deck's folder: deck.json and its tables, as text or as workbooks.</summary>
public static class DeckFolder
{
    /// <summary>Name of the file of facts.</summary>
    public const string DeckFile = "deck.json";

    /// <summary>Reads the folder, or lists all problems of all its files at once.</summary>
    /// <param name="path">The folder.</param>
    /// <returns>The deck with everything in its folder, or no deck and what is wrong.</returns>
    public static DeckFolderResult Read(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var exists = Directory.Exists(path); // what can't be a path at all, for a null character in it, does not exist either
        var problems = new ProblemList(
            Path.GetFileName(
                Path.TrimEndingDirectorySeparator(exists ? Path.GetFullPath(path) : path)
            )
        );
        if (!exists)
        {
            problems.Add(
                DiagnosticCatalogue.FileMissing,
                null,
                null,
                null,
                $"The folder {path}",
                File.Exists(path) ? "it is a file; name the deck's folder." : "check the path."
            );
            return new(null, problems.ToImmutable()) { IsUnreadable = true };
        }

        return new DeckFolderReader(path, problems).Read();
    }

    // What a chloride table of this folder is to be read with.
    internal static ChlorideTableOptions Options(DeckDraft draft) =>
        new()
        {
            ExposureAge = draft.ExposureAge,
            FirstSalt = draft.FirstSalt,
            Mix = draft.Mix,
            Extraction = draft.Extraction,
            DetectionLimit = draft.DetectionLimit,
            ColumnNames = draft.ChlorideColumns,
            AgeIsReported = draft.ExposureAge is null,
            MixIsReported = draft.IsUnreadable,
            DensityHint = "concrete.density in deck.json, for example \"3915 lb/yd3\"",
            BinderHint = "concrete.binderContent in deck.json, for example \"658 lb/yd3\"",
        };
}
