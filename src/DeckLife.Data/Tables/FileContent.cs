using System.Security.Cryptography;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Tables;

/// <summary>Reads a file once, so that fingerprint and content are of the same bytes.</summary>
internal static class FileContent
{
    public static bool TryRead(string path, ProblemList problems, out ReadOnlyMemory<byte> bytes)
    {
        bytes = default;
        try
        {
            if (WholeFile.TryRead(path, out bytes))
            {
                return true;
            }

            problems.AddTooLarge($"{WholeFile.LargestMegabytes} MB");
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

    public static InputFile Fingerprint(string name, ReadOnlyMemory<byte> bytes) =>
        new(name, Convert.ToHexStringLower(SHA256.HashData(bytes.Span)));
}
