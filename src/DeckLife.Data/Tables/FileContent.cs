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
            var length = new FileInfo(path).Length;
            if (length > LargestBytes)
            {
                problems.Add(
                    DiagnosticCatalogue.FileTooLarge,
                    null,
                    null,
                    null,
                    problems.File,
                    $"{length >> 20} MB",
                    $"{LargestBytes >> 20} MB"
                );
                return false;
            }

            bytes = File.ReadAllBytes(path);
            return true;
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

    public static InputFile Fingerprint(string name, ReadOnlyMemory<byte> bytes) =>
        new(name, Convert.ToHexStringLower(SHA256.HashData(bytes.Span)));
}
