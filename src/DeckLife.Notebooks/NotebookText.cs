using System.Text.Json.Nodes;

namespace DeckLife.Notebooks;

/// <summary>Text of nbformat: one string, or a list of lines that keep their ends.</summary>
internal static class NotebookText
{
    /// <summary>The text of a node.</summary>
    public static string Joined(JsonNode? node) =>
        node is JsonArray lines
            ? string.Concat(lines.Select(l => l!.ToString()))
            : node?.ToString() ?? "";

    /// <summary>A text as a list of lines.</summary>
    public static JsonArray Lines(string text)
    {
        var lines = new JsonArray();
        var start = 0;
        while (start < text.Length)
        {
            var end = text.IndexOf('\n', start);
            end = end < 0 ? text.Length : end + 1;
            lines.Add((JsonNode)text[start..end]);
            start = end;
        }

        return lines;
    }
}
