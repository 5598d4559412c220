using System.Globalization;
using System.Text;

namespace DeckLife.Data;

/// <summary>Writes a file beside its place first, flushed to the disk, and renames it: what bears the name is whole, whenever the writer is ended.</summary>
internal static class WholeFile
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    public static async Task WriteAsync(string path, Func<Stream, Task> fill)
    {
        // Two processes may write one file at once (a job that was requeued while it still ran): each has a file of its own.
        var temporary = string.Create(
            CultureInfo.InvariantCulture,
            $"{path}.{Environment.MachineName}-{Environment.ProcessId}.tmp"
        );
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

    public static Task WriteTextAsync(string path, string text) =>
        WriteAsync(path, stream => stream.WriteAsync(Utf8.GetBytes(text)).AsTask());
}
