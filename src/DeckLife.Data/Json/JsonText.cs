using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace DeckLife.Data.Json;

/// <summary>How every result is laid out as JSON: indented, lines parted by a line feed.</summary>
internal static class JsonText
{
    private static readonly JsonWriterOptions Layout = new()
    {
        Indented = true,
        NewLine = "\n",
        // Plain text, never put into a page as it is: quotation marks and plus signs may stay.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Writes one object; no line feed at the end.</summary>
    /// <param name="members">Writes its members.</param>
    public static string Object(Action<Utf8JsonWriter> members)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Layout))
        {
            json.WriteStartObject();
            members(json);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }
}
