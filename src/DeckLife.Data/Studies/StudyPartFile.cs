using System.Text;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>A file of finished pieces of a study: what an interrupted run continues from and what shards are merged from.</summary>
/// <remarks>
/// A head with version, hash and seed, then pieces one after the other, each with its length and a check sum: a piece that was cut off by a
/// crash, or that a disk changed, is not read, nor what comes after it, and the next run makes them again.
/// </remarks>
public sealed class StudyPartFile : IDisposable
{
    private const string Mark = "decklife study part 3";

    // Method, block and number of numbers.
    private const int HeadBytes = 3 * sizeof(int);
    private const int SumBytes = sizeof(ulong);

    private readonly FileStream _stream;
    private readonly BinaryWriter _writer;

    private StudyPartFile(FileStream stream)
    {
        _stream = stream;
        _writer = new(stream, Encoding.UTF8);
    }

    /// <summary>Reads a part, if there is one.</summary>
    /// <param name="path">The file.</param>
    /// <param name="provenance">The study it must belong to.</param>
    /// <param name="into">Receives its pieces.</param>
    /// <returns>Bytes that were sound; 0 where there is no file; absent where it belongs to another study, seed or version.</returns>
    public static long? Read(string path, StudyProvenance provenance, StudyAccumulator into)
    {
        ArgumentNullException.ThrowIfNull(into);
        if (!File.Exists(path))
        {
            return 0;
        }

        using var stream = File.OpenRead(path);
        using var reader = new BinaryReader(stream, Encoding.UTF8);
        var head = Head(provenance);
        var there = reader.ReadBytes(head.Length);
        if (!head.AsSpan().StartsWith(there))
        {
            return null;
        }

        if (there.Length < head.Length)
        {
            return 0; // ended while it began
        }

        var sound = stream.Position;
        while (ReadPiece(reader) is var (piece, payload))
        {
            into.Add(piece, payload);
            sound = stream.Position;
        }

        return sound;
    }

    // Nothing at the end of the file, and where a piece is not what was written.
    private static (StudyPiece Piece, double[] Payload)? ReadPiece(BinaryReader reader)
    {
        var stream = reader.BaseStream;
        var left = stream.Length - stream.Position;
        if (left < HeadBytes + SumBytes)
        {
            return null;
        }

        var head = reader.ReadBytes(HeadBytes);
        var length = BitConverter.ToInt32(head, 2 * sizeof(int));
        if (length < 0 || length > (left - HeadBytes - SumBytes) / sizeof(double))
        {
            return null;
        }

        var bytes = reader.ReadBytes(length * sizeof(double));
        if (reader.ReadUInt64() != Sum(head, bytes))
        {
            return null;
        }

        var payload = new double[length];
        Buffer.BlockCopy(bytes, 0, payload, 0, bytes.Length);
        return (
            new(BitConverter.ToInt32(head, 0), BitConverter.ToInt32(head, sizeof(int))),
            payload
        );
    }

    /// <summary>Opens a part to add pieces to.</summary>
    /// <param name="path">The file.</param>
    /// <param name="provenance">The study it belongs to.</param>
    /// <param name="sound">Bytes that are kept, as <see cref="Read"/> says; 0 begins anew.</param>
    public static StudyPartFile Open(string path, StudyProvenance provenance, long sound)
    {
        var stream = new FileStream(path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read);
        stream.SetLength(sound);
        stream.Position = sound;
        var file = new StudyPartFile(stream);
        if (sound == 0)
        {
            file._writer.Write(Head(provenance));
            file._writer.Flush();
        }

        return file;
    }

    /// <summary>Adds a piece and hands it to the operating system.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="payload">Its numbers.</param>
    public void Add(StudyPiece piece, double[] payload)
    {
        ArgumentNullException.ThrowIfNull(payload);
        var bytes = new byte[payload.Length * sizeof(double)];
        Buffer.BlockCopy(payload, 0, bytes, 0, bytes.Length);
        var head = new byte[HeadBytes];
        BitConverter.TryWriteBytes(head, piece.Method);
        BitConverter.TryWriteBytes(head.AsSpan(sizeof(int)), piece.Block);
        BitConverter.TryWriteBytes(head.AsSpan(2 * sizeof(int)), payload.Length);
        _writer.Write(head);
        _writer.Write(bytes);
        _writer.Write(Sum(head, bytes));
        _writer.Flush();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _writer.Dispose();
        _stream.Dispose();
    }

    private static byte[] Head(StudyProvenance provenance) =>
        Encoding.UTF8.GetBytes($"{Mark}; {provenance.Line}\n");

    // FNV-1a over the piece's head and its numbers: numbers of one piece are never taken for those of another.
    private static ulong Sum(byte[] head, byte[] bytes)
    {
        var hash = 0xCBF29CE484222325UL;
        foreach (var part in new[] { head, bytes })
        {
            foreach (var b in part)
            {
                hash = unchecked((hash ^ b) * 0x100000001B3);
            }
        }

        return hash;
    }
}
