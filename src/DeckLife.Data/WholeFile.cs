using System.Globalization;
using System.Text;

namespace DeckLife.Data;

/// <summary>
/// Reads a file at once, up to a size. Writes one beside its place first, flushed to the disk, and renames it: what bears the name is whole,
/// whenever the writer is ended.
/// </summary>
public static class WholeFile
{
    /// <summary>The most that is read of a file [MB]: far beyond the surveys of a deck.</summary>
    public const int LargestMegabytes = 256;

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Reads a file, unless it is larger than <see cref="LargestMegabytes"/>.</summary>
    /// <param name="path">The file.</param>
    /// <param name="bytes">Its bytes; none where it is larger.</param>
    /// <returns>Whether it was read.</returns>
    public static bool TryRead(string path, out ReadOnlyMemory<byte> bytes)
    {
        const long most = (long)LargestMegabytes << 20;
        bytes = default;
        using var stream = OrdinaryFile.OpenRead(path);
        var length = stream.CanSeek ? stream.Length : 0;
        if (length > most)
        {
            return false;
        }

        // A link to a device says that it is empty, and never ends: what is read is counted.
        using var content = new MemoryStream((int)length);
        var buffer = new byte[1 << 16];
        int read;
        while ((read = stream.Read(buffer)) > 0)
        {
            if (content.Length + read > most)
            {
                return false;
            }

            content.Write(buffer, 0, read);
        }

        bytes = content.GetBuffer().AsMemory(0, (int)content.Length);
        return true;
    }

    /// <summary>Reads a file; one that is too large counts as one that can't be read.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="IOException">It can't be read, or is larger than <see cref="LargestMegabytes"/>.</exception>
    public static ReadOnlyMemory<byte> Read(string path) =>
        TryRead(path, out var bytes)
            ? bytes
            : throw new IOException(
                FormattableString.Invariant(
                    $"it is too large: at most {LargestMegabytes} MB is read."
                )
            );

    /// <summary>Writes a file; one of that name is replaced.</summary>
    /// <param name="path">The file.</param>
    /// <param name="fill">Writes its content.</param>
    public static async Task WriteAsync(string path, Func<Stream, Task> fill)
    {
        // Two processes may write one file at once (a job that was requeued while it still ran): each has a file of its own.
        var temporary = string.Create(
            CultureInfo.InvariantCulture,
            $"{path}.{Environment.MachineName}-{Environment.ProcessId}.tmp"
        );
        ArgumentNullException.ThrowIfNull(fill);
        try
        {
            var stream = new FileStream(
                temporary,
                FileMode.Create,
                FileAccess.ReadWrite,
                FileShare.None
            );
            await using (stream.ConfigureAwait(false))
            {
                await fill(stream).ConfigureAwait(false);
                stream.Flush(flushToDisk: true);
            }

            File.Move(temporary, path, overwrite: true);
        }
        catch
        {
            // Nothing half-written stays where the writer still can take it away, a full disk above all.
            File.Delete(temporary);
            throw;
        }
    }

    /// <summary>Writes a text file, UTF-8 without a mark; one of that name is replaced.</summary>
    /// <param name="path">The file.</param>
    /// <param name="text">Its text.</param>
    public static Task WriteTextAsync(string path, string text) =>
        WriteAsync(path, stream => stream.WriteAsync(Utf8.GetBytes(text)).AsTask());
}
