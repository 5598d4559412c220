using System.Text.Json;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Json;

/// <summary>The flags of a result, or the problems that keep it from being one: code and text of each.</summary>
internal static class FlagsJson
{
    /// <summary>Writes them as a member, <c>flags</c> if not told otherwise.</summary>
    public static void Write(
        Utf8JsonWriter json,
        IEnumerable<Diagnostic> flags,
        string member = "flags"
    )
    {
        json.WriteStartArray(member);
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
