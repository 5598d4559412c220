using DeckLife.Diagnostics;

namespace DeckLife.Data;

/// <summary>Looks whether a folder can take results before time is spent on them; leaves nothing behind.</summary>
public static class OutputFolder
{
    // One block of most file systems: an empty file can still be made on a disk that is full.
    private const int ProbeBytes = 4096;

    /// <summary>Finds why results can't go to a folder.</summary>
    /// <param name="folder">The folder, which need not exist.</param>
    /// <param name="force">Whether one that holds something may be written to.</param>
    /// <param name="isOurs">Tells the path of what may lie there in any case; absent: nothing may.</param>
    /// <returns>Why they can't; absent: they can.</returns>
    public static Diagnostic? Problem(string folder, bool force, Func<string, bool>? isOurs = null)
    {
        ArgumentNullException.ThrowIfNull(folder);
        // What is not there yet will be made in the nearest folder that is.
        var place = folder;
        try
        {
            if (
                !force
                && Directory.Exists(folder)
                && Directory.EnumerateFileSystemEntries(folder).Any(e => isOurs?.Invoke(e) != true)
            )
            {
                return DiagnosticCatalogue.OutputExists.With(folder);
            }

            place = Path.GetFullPath(folder);
            while (!Directory.Exists(place))
            {
                if (File.Exists(place))
                {
                    return DiagnosticCatalogue.OutputUnusable.With(
                        folder,
                        place == Path.GetFullPath(folder) ? "it is a file." : $"{place} is a file."
                    );
                }

                place =
                    Path.GetDirectoryName(place)
                    ?? throw new DirectoryNotFoundException($"{place} is not there.");
            }

            Probe(place);
            return null;
        }
        catch (UnauthorizedAccessException)
        {
            return DiagnosticCatalogue.OutputUnusable.With(
                folder,
                $"rights to {place} are missing."
            );
        }
        catch (Exception e) when (e is IOException or ArgumentException)
        {
            return DiagnosticCatalogue.OutputUnusable.With(folder, e.Message);
        }
    }

    private static void Probe(string folder)
    {
        using var stream = new FileStream(
            Path.Combine(folder, $"decklife-{Guid.NewGuid():N}.tmp"),
            new FileStreamOptions
            {
                Mode = FileMode.CreateNew,
                Access = FileAccess.Write,
                Options = FileOptions.DeleteOnClose,
                BufferSize = 0,
            }
        );
        stream.Write(new byte[ProbeBytes]);
        stream.Flush(flushToDisk: true);
    }
}
