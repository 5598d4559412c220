using System.Text.Json;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Json;

/// <summary>The flags of a result: code and text of each.</summary>
internal static class FlagsJson
{
    /// <summary>Writes the member <c>flags</c>.</summary>
    public static void Write(Utf8JsonWriter json, IEnumerable<Diagnostic> flags)
    {
        json.WriteStartArray("flags");
        foreach (var flag in flags)
        {
            json.WriteStartObject();
            json.WriteString("code", flag.Code);
            json.WriteString("text", flag.Text);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
