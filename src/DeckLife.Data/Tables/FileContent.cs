using System.Security.Cryptography;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Tables;

/// <summary>Reads a file once, so that fingerprint and content are of the same bytes.</summary>
internal static class FileContent
{
    /// <summary>Largest file that is read: far beyond the surveys of a deck.</summary>
    public const long LargestBytes = 256L << 20;

    public static bool TryRead(string path, ProblemList problems, out ReadOnlyMemory<byte> bytes)
    {
        bytes = default;
        try
        {
            using var stream = OrdinaryFile.OpenRead(path);
            var length = stream.CanSeek ? stream.Length : 0;
            if (length <= LargestBytes && ReadAll(stream, (int)length) is { } all)
            {
                bytes = all;
                return true;
            }

            problems.Add(
                DiagnosticCatalogue.FileTooLarge,
                null,
                null,
                null,
                problems.File,
                length > 0 ? $"{length >> 20} MB" : "more",
                $"{LargestBytes >> 20} MB"
            );
            return false;
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            problems.Add(
                DiagnosticCatalogue.FileMissing,
                null,
                null,
                null,
                problems.File,
                "check the path."
            );
            return false;
        }
        catch (Exception e)
            when (e
                    is IOException
                        or UnauthorizedAccessException
                        or ArgumentException
                        or NotSupportedException
            )
        {
            problems.Add(
                DiagnosticCatalogue.FileUnreadable,
                null,
                null,
                null,
                problems.File,
                e.Message
            );
            return false;
        }
    }

    // A link to a device says that it is empty, and never ends: what is read is counted.
    private static ReadOnlyMemory<byte>? ReadAll(Stream stream, int expected)
    {
        using var content = new MemoryStream(expected);
        var buffer = new byte[1 << 16];
        int read;
        while ((read = stream.Read(buffer)) > 0)
        {
            if (content.Length + read > LargestBytes)
            {
                return null;
            }

            content.Write(buffer, 0, read);
        }

        return content.GetBuffer().AsMemory(0, (int)content.Length);
    }

    public static InputFile Fingerprint(string name, ReadOnlyMemory<byte> bytes) =>
        new(name, Convert.ToHexStringLower(SHA256.HashData(bytes.Span)));
}
