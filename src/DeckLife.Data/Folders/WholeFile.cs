using System.Globalization;
using System.Text;

namespace DeckLife.Data.Folders;

/// <summary>Writes files whole or not at all: beside their place first, then renamed.</summary>
public static class WholeFile
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes a file; one of that name is replaced.</summary>
    /// <param name="path">The file.</param>
    /// <param name="fill">Writes its content.</param>
    public static async Task WriteAsync(string path, Func<Stream, Task> fill)
    {
        ArgumentNullException.ThrowIfNull(fill);
        // Two processes may write one file at once (a job that was requeued while it still ran): each fills a part of its own.
        var part = string.Create(
            CultureInfo.InvariantCulture,
            $"{path}.{Environment.MachineName}-{Environment.ProcessId}.tmp"
        );
        try
        {
            var stream = new FileStream(
                part,
                FileMode.Create,
                FileAccess.ReadWrite,
                FileShare.None
            );
            await using (stream.ConfigureAwait(false))
            {
                await fill(stream).ConfigureAwait(false);
                if (stream.CanWrite)
                {
                    stream.Flush(flushToDisk: true);
                }
            }

            File.Move(part, path, overwrite: true);
        }
        catch
        {
            // Nothing half-written stays where the writer still can take it away, a full disk above all.
            File.Delete(part);
            throw;
        }
    }

    /// <summary>Writes a text file, UTF-8 without a mark; one of that name is replaced.</summary>
    /// <param name="path">The file.</param>
    /// <param name="text">Its text.</param>
    public static Task WriteTextAsync(string path, string text) =>
        WriteAsync(path, async s => await s.WriteAsync(Utf8.GetBytes(text)).ConfigureAwait(false));
}
