using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace DeckLife.Data.Networks;

/// <summary>
/// The check sum that a shard carries of itself, in its footer: SHA-256 of all its bytes, those of the sum as zeros. A shard with a bit that a
/// disk or a copy changed is not taken for one, wherever the bit lies.
/// </summary>
internal static class ShardSum
{
    private const string Mark = "sha256-of-file:";
    private const int Digits = 64;
    private const int MostFooterBytes = 64 << 20;

    /// <summary>Stands in the footer until the sum is known.</summary>
    public static string Blank { get; } = Mark + new string('0', Digits);

    /// <summary>Fills in the sum of a file that was written with the blank.</summary>
    public static void Set(Stream file)
    {
        file.Flush();
        var place = PlaceOf(file) ?? throw new InvalidDataException("The footer has no sum.");
        var sum = Of(file, place);
        file.Position = place;
        file.Write(sum);
        file.Position = file.Length;
    }

    /// <summary>Whether a file is the one that was written.</summary>
    public static bool Holds(Stream file)
    {
        if (PlaceOf(file) is not { } place)
        {
            return false;
        }

        var said = new byte[Digits];
        file.Position = place;
        file.ReadExactly(said);
        return Of(file, place).AsSpan().SequenceEqual(said);
    }

    private static long? PlaceOf(Stream file)
    {
        // A Parquet file ends in its footer, the footer's length and a mark of 4 bytes.
        Span<byte> end = stackalloc byte[8];
        if (file.Length < end.Length)
        {
            return null;
        }

        file.Position = file.Length - end.Length;
        file.ReadExactly(end);
        var length = BinaryPrimitives.ReadInt32LittleEndian(end);
        if (length <= 0 || length > MostFooterBytes || length > file.Length - end.Length)
        {
            return null;
        }

        var start = file.Length - end.Length - length;
        var footer = new byte[length];
        file.Position = start;
        file.ReadExactly(footer);
        var at = footer.AsSpan().LastIndexOf(Encoding.ASCII.GetBytes(Mark));
        return at >= 0 && at + Mark.Length + Digits <= length ? start + at + Mark.Length : null;
    }

    private static byte[] Of(Stream file, long place)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        file.Position = 0;
        Append(place);
        hash.AppendData(Encoding.ASCII.GetBytes(new string('0', Digits)));
        file.Position = place + Digits;
        Append(file.Length - file.Position);
        return Encoding.ASCII.GetBytes(Convert.ToHexStringLower(hash.GetHashAndReset()));

        void Append(long count)
        {
            var buffer = new byte[1 << 16];
            while (count > 0)
            {
                var part = buffer.AsSpan(0, (int)Math.Min(buffer.Length, count));
                file.ReadExactly(part);
                hash.AppendData(part);
                count -= part.Length;
            }
        }
    }
}
