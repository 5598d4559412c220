using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using DeckLife.Data.Networks;

namespace DeckLife.Data.Json;

/// <summary>The JSON Schemas of deck.json and network.json, for editors; made from the keys that the readers themselves hold files against.</summary>
public static class DeckSchema
{
    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        NewLine = "\n",
    };

    /// <summary>Writes the schema of deck.json (JSON Schema, draft 2020-12).</summary>
    public static string Write() => Write("A bridge deck (deck.json)", DeckKeys.All);

    /// <summary>Writes the schema of network.json (JSON Schema, draft 2020-12).</summary>
    public static string WriteNetwork() =>
        Write("A network of bridge decks (network.json)", NetworkKeys.All);

    private static string Write(string title, IReadOnlyList<JsonKey> keys)
    {
        var schema = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = title,
            ["description"] =
                "Quantities are texts with their unit, such as \"2.5 in\", \"1.2 lb/yd3\", \"30 mm2/yr\", \"0.4 % of binder\", \"25 yr\".",
        };
        foreach (var (key, value) in Object(keys))
        {
            schema[key] = value!.DeepClone();
        }

        return schema.ToJsonString(Indented);
    }

    private static JsonObject Object(IReadOnlyList<JsonKey> keys)
    {
        var properties = new JsonObject();
        foreach (var key in keys)
        {
            properties[key.Name] = Value(key);
        }

        var result = new JsonObject { ["type"] = "object", ["properties"] = properties };
        var required = keys.Where(k => k.IsRequired).ToList();
        if (required.Count > 0)
        {
            result["required"] = new JsonArray([.. required.Select(k => (JsonNode)k.Name)]);
        }

        result["additionalProperties"] = false;
        return result;
    }

    private static JsonObject Value(JsonKey key)
    {
        JsonObject value = key.Shape switch
        {
            JsonShape.Object => Object(key.Keys!),
            JsonShape.Objects => new() { ["type"] = "array", ["items"] = Object(key.Keys!) },
            JsonShape.TextMap => new()
            {
                ["type"] = "object",
                ["additionalProperties"] = new JsonObject { ["type"] = "string" },
            },
            JsonShape.Number => new() { ["type"] = "number" },
            JsonShape.Whole => new() { ["type"] = "integer" },
            JsonShape.Fraction => new() { ["type"] = new JsonArray("number", "string") },
            JsonShape.Date => new() { ["type"] = "string", ["format"] = "date" },
            JsonShape.Choice => new()
            {
                ["type"] = "string",
                ["enum"] = new JsonArray([.. key.Choices!.Select(c => (JsonNode)c)]),
            },
            JsonShape.Uncertain => new()
            {
                ["oneOf"] = new JsonArray(
                    new JsonObject { ["type"] = "string", ["description"] = "Without spread." },
                    Object(JsonCheck.Uncertain)
                ),
            },
            JsonShape.Assumable => new()
            {
                ["oneOf"] = new JsonArray(
                    new JsonObject { ["type"] = "string" },
                    Object(JsonCheck.Assumable)
                ),
            },
            _ => new() { ["type"] = "string" },
        };
        value["description"] = key.Description;
        if (key.Example is not null)
        {
            value["examples"] = new JsonArray(key.Example);
        }

        return value;
    }
}
