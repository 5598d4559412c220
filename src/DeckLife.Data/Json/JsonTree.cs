using System.Text.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Json;

/// <summary>Reads JSON with comments into a tree that keeps the lines.</summary>
internal static class JsonTree
{
    /// <summary>Reads the whole file, or reports where it stops being JSON.</summary>
    public static JsonItem? Read(ReadOnlyMemory<byte> utf8, ProblemList problems)
    {
        var span = utf8.Span;
        var reader = new Utf8JsonReader(
            span,
            new JsonReaderOptions
            {
                CommentHandling = JsonCommentHandling.Skip,
                AllowTrailingCommas = true,
                MaxDepth = 32,
            }
        );
        var lines = new LineCounter();
        try
        {
            reader.Read();
            var root = ReadValue(ref reader, span, ref lines, problems);
            reader.Read();
            return root;
        }
        catch (JsonException e)
        {
            problems.Add(
                DiagnosticCatalogue.JsonBroken,
                (int)(e.LineNumber ?? 0) + 1,
                null,
                null,
                e.Message.Split(" LineNumber:")[0].Split(" Path:")[0].TrimEnd('.')
            );
            return null;
        }
        catch (InvalidOperationException)
        {
            // A string that is not valid UTF-16 once its escapes are read.
            problems.Add(
                DiagnosticCatalogue.JsonBroken,
                lines.Line,
                null,
                null,
                "a text holds half a character"
            );
            return null;
        }
    }

    /// <summary>Reads a file that holds one object, or reports why it does not.</summary>
    public static JsonItem? ReadObject(ReadOnlyMemory<byte> utf8, string file, ProblemList problems)
    {
        var root = Read(utf8, problems);
        if (root is null || root.Kind == JsonValueKind.Object)
        {
            return root;
        }

        problems.Add(
            DiagnosticCatalogue.ShapeWrong,
            root.Line,
            null,
            root.Show(),
            file,
            root.Show(),
            "an object { … }"
        );
        return null;
    }

    private static JsonItem ReadValue(
        ref Utf8JsonReader reader,
        ReadOnlySpan<byte> utf8,
        ref LineCounter lines,
        ProblemList problems
    )
    {
        var line = lines.At(utf8, reader.TokenStartIndex);
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject:
                var item = new JsonItem(JsonValueKind.Object, line, "");
                var keys = new HashSet<string>(StringComparer.Ordinal);
                while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
                {
                    var keyLine = lines.At(utf8, reader.TokenStartIndex);
                    var key = reader.GetString()!;
                    reader.Read();
                    var value = ReadValue(ref reader, utf8, ref lines, problems);
                    if (!keys.Add(key))
                    {
                        problems.Add(DiagnosticCatalogue.KeyTwice, keyLine, key, null, key);
                        continue;
                    }

                    item.Members.Add((key, keyLine, value));
                }

                return item;
            case JsonTokenType.StartArray:
                var array = new JsonItem(JsonValueKind.Array, line, "");
                while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
                {
                    array.Items.Add(ReadValue(ref reader, utf8, ref lines, problems));
                }

                return array;
            case JsonTokenType.String:
                return new(JsonValueKind.String, line, reader.GetString()!);
            case JsonTokenType.Number:
                return new(
                    JsonValueKind.Number,
                    line,
                    System.Text.Encoding.UTF8.GetString(reader.ValueSpan)
                );
            case JsonTokenType.True:
                return new(JsonValueKind.True, line, "true");
            case JsonTokenType.False:
                return new(JsonValueKind.False, line, "false");
            default:
                return new(JsonValueKind.Null, line, "null");
        }
    }

    // Counts line ends once, going forward only.
    private struct LineCounter()
    {
        private int at;

        public int Line { get; private set; } = 1;

        public int At(ReadOnlySpan<byte> utf8, long index)
        {
            var end = (int)Math.Min(index, utf8.Length);
            if (end > at)
            {
                Line += utf8[at..end].Count((byte)'\n');
                at = end;
            }

            return Line;
        }
    }
}
