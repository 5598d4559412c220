using System.Text;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>A file of finished pieces of a study: what an interrupted run continues from and what shards are merged from.</summary>
/// <remarks>
/// A head with version, hash and seed, then pieces one after the other, each with its length and a check sum: a piece that was cut off by a
/// crash is not read, and the next run makes it again.
/// </remarks>
public sealed class StudyPartFile : IDisposable
{
    private const string Mark = "decklife study part 2";

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
        try
        {
            if (reader.ReadString() != Head(provenance))
            {
                return null;
            }
        }
        catch (Exception e) when (e is EndOfStreamException or FormatException)
        {
            return stream.Length == 0 ? 0 : null;
        }

        var sound = stream.Position;
        try
        {
            while (stream.Position < stream.Length)
            {
                var piece = new StudyPiece(reader.ReadInt32(), reader.ReadInt32());
                var length = reader.ReadInt32();
                var bytes = reader.ReadBytes(checked(length * sizeof(double)));
                if (bytes.Length != length * sizeof(double) || reader.ReadUInt64() != Sum(bytes))
                {
                    break;
                }

                var payload = new double[length];
                Buffer.BlockCopy(bytes, 0, payload, 0, bytes.Length);
                into.Add(piece, payload);
                sound = stream.Position;
            }
        }
        catch (EndOfStreamException)
        {
            // Cut off in the middle of a piece: what came before is sound.
        }

        return sound;
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
        _writer.Write(piece.Method);
        _writer.Write(piece.Block);
        _writer.Write(payload.Length);
        _writer.Write(bytes);
        _writer.Write(Sum(bytes));
        _writer.Flush();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _writer.Dispose();
        _stream.Dispose();
    }

    private static string Head(StudyProvenance provenance) => $"{Mark}; {provenance.Line}";

    // FNV-1a.
    private static ulong Sum(byte[] bytes)
    {
        var hash = 0xCBF29CE484222325UL;
        foreach (var b in bytes)
        {
            hash = unchecked((hash ^ b) * 0x100000001B3);
        }

        return hash;
    }
}
