using System.Text.Json;

namespace DeckLife.Data.Json;

/// <summary>Reads JSON with comments into a document whose every text can be read.</summary>
internal static class StrictDocument
{
    private static readonly JsonDocumentOptions Options = new()
    {
        CommentHandling = JsonCommentHandling.Skip,
        AllowTrailingCommas = true,
        AllowDuplicateProperties = false,
    };

    /// <exception cref="JsonException">It is not JSON, a key is there twice, or a text holds half a character.</exception>
    public static JsonDocument Parse(string json)
    {
        JsonDocument? document = null;
        try
        {
            document = JsonDocument.Parse(json, Options);
            ReadTexts(document.RootElement);
            return document;
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException)
        {
            // An escape of half a surrogate pair, which only a look at the text finds; or the text itself holds half a pair.
            document?.Dispose();
            throw new JsonException("A text holds half a character.", e);
        }
    }

    private static void ReadTexts(JsonElement element)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.String:
                _ = element.GetString();
                break;
            case JsonValueKind.Array:
                foreach (var item in element.EnumerateArray())
                {
                    ReadTexts(item);
                }

                break;
            case JsonValueKind.Object:
                foreach (var member in element.EnumerateObject())
                {
                    _ = member.Name;
                    ReadTexts(member.Value);
                }

                break;
        }
    }
}
