using System.Text;

namespace DeckLife.Data.Tests.Mutations;

/// <summary>Makes one random change to one file: bytes, cells, columns, rows, words, size, encoding.</summary>
internal sealed class FolderMutator(int seed)
{
    private static readonly string[] Junk =
    [
        "",
        " ",
        "NaN",
        "Infinity",
        "-1",
        "0",
        "1e308",
        "1e-308",
        "9999999",
        "1,234",
        "0,5",
        "2-Jan",
        "45659",
        "1/2",
        "1 1/4",
        "<",
        "<0",
        "ND",
        "BDL",
        "#REF!",
        "#N/A",
        "\"",
        "'",
        "1;2",
        "½",
        "−5",
        "\u00A0",
        "0.5 in",
        "5 lb/cy",
        "=1+1",
        "null",
        "true",
        "{}",
        "[]",
        "💥",
        "\uFEFF",
        "a\nb",
        "1.2.3",
        "%",
        "% of concrete",
    ];

    private readonly Random random = new(seed);

    public byte[] Mutate(byte[] bytes)
    {
        var changes = random.Next(1, 4);
        for (var i = 0; i < changes; i++)
        {
            bytes = Once(bytes);
        }

        return bytes;
    }

    private byte[] Once(byte[] bytes)
    {
        if (bytes.Length == 0)
        {
            return [(byte)random.Next(256)];
        }

        switch (random.Next(20))
        {
            case 0:
                bytes = [.. bytes];
                for (var i = random.Next(1, 20); i > 0; i--)
                {
                    bytes[random.Next(bytes.Length)] ^= (byte)(1 << random.Next(8));
                }

                return bytes;
            case 1:
                return [.. bytes.Take(random.Next(bytes.Length))];
            case 2:
                var at = random.Next(bytes.Length);
                var noise = new byte[random.Next(1, 60)];
                random.NextBytes(noise);
                return [.. bytes.Take(at), .. noise, .. bytes.Skip(at)];
            case 3:
                return [];
            case 4:
                return Encoding.Unicode.GetBytes(Encoding.UTF8.GetString(bytes));
            case 5:
                return [0xEF, 0xBB, 0xBF, .. bytes];
            case 6:
                return [.. bytes.Select(b => b == ',' ? (byte)';' : b)];
            case 7:
                return [.. bytes.Select(b => b == '.' ? (byte)',' : b)];
            case 8:
                return Insert(
                    bytes,
                    Encoding.UTF8.GetBytes(
                        new string((char)random.Next(32, 127), random.Next(1000, 300_000))
                    )
                );
            default:
                return Encoding.UTF8.GetBytes(Lines(Encoding.UTF8.GetString(bytes)));
        }
    }

    private byte[] Insert(byte[] bytes, byte[] what)
    {
        var at = random.Next(bytes.Length);
        return [.. bytes.Take(at), .. what, .. bytes.Skip(at)];
    }

    private string Lines(string text)
    {
        var lines = text.Split('\n').ToList();
        var line = random.Next(lines.Count);
        switch (random.Next(9))
        {
            case 0:
                lines.RemoveAt(line);
                break;
            case 1:
                lines.Insert(random.Next(lines.Count), lines[line]);
                break;
            case 2:
                var other = random.Next(lines.Count);
                (lines[line], lines[other]) = (lines[other], lines[line]);
                break;
            case 3:
                // Drop a column.
                var drop = random.Next(4);
                lines =
                [
                    .. lines.Select(l => string.Join(',', l.Split(',').Where((_, i) => i != drop))),
                ];
                break;
            case 4:
                // Swap two cells of two rows.
                var second = random.Next(lines.Count);
                var (a, b) = (lines[line].Split(','), lines[second].Split(','));
                var (i, j) = (random.Next(a.Length), random.Next(b.Length));
                (a[i], b[j]) = (b[j], a[i]);
                lines[line] = string.Join(',', a);
                if (line != second)
                {
                    lines[second] = string.Join(',', b);
                }

                break;
            case 5:
                lines[line] += Junk[random.Next(Junk.Length)];
                break;
            case 6:
                var cells = lines[line].Split(random.Next(2) == 0 ? ',' : ':');
                cells[random.Next(cells.Length)] = Junk[random.Next(Junk.Length)];
                lines[line] = string.Join(
                    lines[line].Contains(':', StringComparison.Ordinal) ? ':' : ',',
                    cells
                );
                break;
            case 7:
                // A word for another of the same text.
                var words = text.Split(
                    [' ', ',', '"', '\n'],
                    StringSplitOptions.RemoveEmptyEntries
                );
                if (words.Length > 0)
                {
                    lines[line] = lines[line]
                        .Replace(
                            words[random.Next(words.Length)],
                            words[random.Next(words.Length)],
                            StringComparison.Ordinal
                        );
                }

                break;
            default:
                lines[line] = lines[line]
                    .Insert(random.Next(lines[line].Length + 1), Junk[random.Next(Junk.Length)]);
                break;
        }

        return string.Join('\n', lines);
    }
}
