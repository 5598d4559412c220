using System.IO.Compression;

namespace DeckLife.Data.Tests.Mutations;

/// <summary>Makes random changes to a zip archive: to the text of one of its parts, to its list of parts, or to its bytes.</summary>
internal sealed class ArchiveMutator(int seed)
{
    private readonly Random random = new(seed);

    public byte[] Mutate(byte[] bytes)
    {
        if (random.Next(3) == 0)
        {
            return Bytes(bytes);
        }

        using var from = new ZipArchive(new MemoryStream(bytes), ZipArchiveMode.Read);
        using var stream = new MemoryStream();
        using (var to = new ZipArchive(stream, ZipArchiveMode.Create, true))
        {
            var chosen = random.Next(from.Entries.Count);
            var kind = random.Next(8);
            for (var i = 0; i < from.Entries.Count; i++)
            {
                using var part = from.Entries[i].Open();
                using var copy = new MemoryStream();
                part.CopyTo(copy);
                var content = copy.ToArray();
                var name = from.Entries[i].FullName;
                if (i == chosen && kind == 0)
                {
                    continue;
                }

                if (i == chosen && kind == 1)
                {
                    name = "../" + name;
                }

                for (var times = i == chosen && kind == 2 ? 2 : 1; times > 0; times--)
                {
                    using var entry = to.CreateEntry(name).Open();
                    entry.Write(
                        i == chosen && kind > 2
                            ? new FolderMutator(random.Next()).Mutate(content)
                            : content
                    );
                }
            }
        }

        return stream.ToArray();
    }

    /// <summary>Flips, cuts, inserts or doubles bytes.</summary>
    public byte[] Bytes(byte[] bytes)
    {
        var changed = bytes.ToArray();
        switch (random.Next(4))
        {
            case 0:
                return changed[..random.Next(changed.Length)];
            case 1:
                var (at, end) = (random.Next(changed.Length), random.Next(changed.Length));
                return [.. changed[..at], .. changed[Math.Min(at, end)..]];
            case 2:
                var number = BitConverter.GetBytes(
                    random.Next(2) == 0 ? int.MaxValue : -random.Next(1, 1000)
                );
                number.CopyTo(changed, random.Next(changed.Length - number.Length));
                return changed;
            default:
                for (var i = random.Next(1, 12); i > 0; i--)
                {
                    changed[random.Next(changed.Length)] ^= (byte)(1 << random.Next(8));
                }

                return changed;
        }
    }
}
