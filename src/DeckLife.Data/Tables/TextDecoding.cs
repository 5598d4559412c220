using System.Text;
using System.Text.Unicode;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Tables;

/// <summary>Turns the bytes of a text file into UTF-8 without a byte order mark, or says why they are no text.</summary>
internal static class TextDecoding
{
    public static bool TryToUtf8(
        ReadOnlyMemory<byte> bytes,
        ProblemList problems,
        out ReadOnlyMemory<byte> utf8
    )
    {
        utf8 = default;
        var span = bytes.Span;
        if (span.StartsWith("PK\u0003\u0004"u8))
        {
            return No(problems, "it is a zip archive, such as a workbook under another name.");
        }

        if (span.StartsWith((ReadOnlySpan<byte>)[0xD0, 0xCF, 0x11, 0xE0]))
        {
            return No(problems, "it is a workbook in the old .xls format.");
        }

        if (span.StartsWith("%PDF"u8))
        {
            return No(problems, "it is a PDF.");
        }

        if (span.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
        {
            utf8 = bytes[3..];
        }
        else if (span.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]))
        {
            utf8 = Transcode(new UnicodeEncoding(false, false, true), bytes[2..], out var bad);
            if (bad)
            {
                return No(problems, "it starts as UTF-16 but is not UTF-16 throughout.");
            }
        }
        else if (span.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
        {
            utf8 = Transcode(new UnicodeEncoding(true, false, true), bytes[2..], out var bad);
            if (bad)
            {
                return No(problems, "it starts as UTF-16 but is not UTF-16 throughout.");
            }
        }
        else if (LooksUtf16(span) is { } bigEndian)
        {
            utf8 = Transcode(new UnicodeEncoding(bigEndian, false, true), bytes, out var bad);
            if (bad)
            {
                return No(problems, "it looks like UTF-16 but is not UTF-16 throughout.");
            }
        }
        else if (Utf8.IsValid(span))
        {
            utf8 = bytes;
        }
        else
        {
            // The code pages come with the runtime; the provider is used directly, so nothing is registered for others.
            utf8 = Transcode(
                CodePagesEncodingProvider.Instance.GetEncoding(1252)!,
                bytes,
                out var bad
            );
            if (bad)
            {
                return No(problems, "its encoding is unknown.");
            }

            if (!IsBinary(utf8.Span))
            {
                problems.Add(DiagnosticCatalogue.EncodingAssumed, null, null, null, problems.File);
            }
        }

        return !IsBinary(utf8.Span)
            || No(problems, "it holds control characters (binary content).");
    }

    private static bool No(ProblemList problems, string why)
    {
        problems.Add(DiagnosticCatalogue.FileNotText, null, null, null, problems.File, why);
        return false;
    }

    private static byte[] Transcode(Encoding from, ReadOnlyMemory<byte> bytes, out bool bad)
    {
        bad = false;
        try
        {
            return Encoding.Convert(from, Encoding.UTF8, bytes.ToArray());
        }
        catch (ArgumentException)
        {
            bad = true;
            return [];
        }
    }

    // Text in UTF-16 without a mark: nearly every second byte of plain letters and digits is 0.
    private static bool? LooksUtf16(ReadOnlySpan<byte> span)
    {
        var pairs = Math.Min(span.Length, 4096) / 2;
        if (pairs < 4 || span.Length % 2 != 0)
        {
            return null;
        }

        var even = 0;
        var odd = 0;
        for (var i = 0; i < pairs; i++)
        {
            even += span[2 * i] == 0 ? 1 : 0;
            odd += span[(2 * i) + 1] == 0 ? 1 : 0;
        }

        return odd > 0.8 * pairs && even == 0 ? false
            : even > 0.8 * pairs && odd == 0 ? true
            : null;
    }

    private static bool IsBinary(ReadOnlySpan<byte> utf8) => utf8.ContainsAny(Controls);

    private static readonly System.Buffers.SearchValues<byte> Controls =
        System.Buffers.SearchValues.Create([
            0,
            1,
            2,
            3,
            4,
            5,
            6,
            7,
            8,
            11,
            14,
            15,
            16,
            17,
            18,
            19,
            20,
            21,
            22,
            23,
            24,
            25,
            27,
            28,
            29,
            30,
            31,
            127,
        ]);
}
