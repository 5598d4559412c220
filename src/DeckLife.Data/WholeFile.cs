using System.Globalization;
using System.Text;

namespace DeckLife.Data;

/// <summary>Writes a file beside its place first, flushed to the disk, and renames it: what bears the name is whole, whenever the writer is ended.</summary>
public static class WholeFile
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

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
