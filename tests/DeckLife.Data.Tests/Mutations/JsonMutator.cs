using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace DeckLife.Data.Tests.Mutations;

/// <summary>Makes random changes to the tree of a JSON file: values of other kinds, keys and elements gone, moved, doubled, misspelt, nested deep.</summary>
internal sealed class JsonMutator(int seed)
{
    private static readonly JsonDocumentOptions Options = new()
    {
        CommentHandling = JsonCommentHandling.Skip,
        AllowTrailingCommas = true,
    };

    private static readonly string[] Values =
    [
        "null",
        "true",
        "0",
        "-1",
        "1e308",
        "-1e-308",
        "12345678901234567890",
        "0.1",
        "\"\"",
        "\"NaN\"",
        "\"-1 mm\"",
        "\"1e308 mm\"",
        "\"1e-308 mm2/yr\"",
        "\"0 yr\"",
        "\"5 parsec\"",
        "\"2.5\"",
        "\"2,5 in\"",
        "\"0 %\"",
        "\"200 %\"",
        "\"../../../etc/passwd\"",
        "\"\\u0000\"",
        "\"half a pair\"",
        "\"9999-12-31\"",
        "[]",
        "{}",
        "[[]]",
        "[1, \"a\", null]",
        "{ \"mean\": 1 }",
        "{ \"mean\": \"1 mm\", \"cov\": -0.5 }",
        "{ \"mean\": \"1 mm\", \"cov\": 1e9, \"distribution\": \"none\" }",
    ];

    private readonly Random random = new(seed);

    public byte[] Mutate(byte[] bytes)
    {
        // A third as text, where quotes, commas and brackets break.
        if (random.Next(3) == 0)
        {
            return new FolderMutator(random.Next()).Mutate(bytes);
        }

        var root = JsonNode.Parse(bytes, null, Options)!;
        for (var i = random.Next(1, 5); i > 0; i--)
        {
            var places = new List<(JsonNode Parent, string? Key, int Index)>();
            Collect(root, places);
            if (places.Count == 0)
            {
                break;
            }

            Once(places[random.Next(places.Count)], places);
        }

        // Half of a surrogate pair has no tree of its own: it is written into the text.
        var text = root.ToJsonString().Replace("half a pair", "\\ud800", StringComparison.Ordinal);
        return Encoding.UTF8.GetBytes(random.Next(40) == 0 ? Deep(text) : text);
    }

    private static void Collect(JsonNode? node, List<(JsonNode, string?, int)> places)
    {
        switch (node)
        {
            case JsonObject item:
                foreach (var (key, value) in item)
                {
                    places.Add((item, key, -1));
                    Collect(value, places);
                }

                break;
            case JsonArray list:
                for (var i = 0; i < list.Count; i++)
                {
                    places.Add((list, null, i));
                    Collect(list[i], places);
                }

                break;
        }
    }

    private void Once(
        (JsonNode Parent, string? Key, int Index) place,
        List<(JsonNode Parent, string? Key, int Index)> places
    )
    {
        switch (random.Next(6))
        {
            case 0:
                if (place.Parent is JsonObject item)
                {
                    item.Remove(place.Key!);
                }
                else
                {
                    ((JsonArray)place.Parent).RemoveAt(place.Index);
                }

                break;
            case 1:
                // The value of another place.
                Set(place, At(places[random.Next(places.Count)])?.DeepClone());
                break;
            case 2 when place.Parent is JsonObject owner:
                // A misspelt key; the value stays.
                var value = owner[place.Key!]?.DeepClone();
                owner.Remove(place.Key!);
                owner[place.Key! + (char)random.Next('a', 'z' + 1)] = value;
                break;
            case 2 when place.Parent is JsonArray list:
                for (var i = random.Next(1, 300); i > 0; i--)
                {
                    list.Add(list[place.Index]?.DeepClone());
                }

                break;
            case 3
                when At(place) is JsonValue number && number.GetValueKind() == JsonValueKind.Number:
                Set(place, JsonNode.Parse(Values[random.Next(2, 8)]));
                break;
            default:
                Set(place, JsonNode.Parse(Values[random.Next(Values.Length)]));
                break;
        }
    }

    private static JsonNode? At((JsonNode Parent, string? Key, int Index) place) =>
        place.Parent is JsonObject item ? item[place.Key!] : ((JsonArray)place.Parent)[place.Index];

    private static void Set((JsonNode Parent, string? Key, int Index) place, JsonNode? value)
    {
        if (place.Parent is JsonObject item)
        {
            item[place.Key!] = value;
        }
        else
        {
            ((JsonArray)place.Parent)[place.Index] = value;
        }
    }

    // Brackets within brackets, beyond what any reader should follow.
    private string Deep(string text)
    {
        var depth = random.Next(20, 20_000);
        var at = text.IndexOf(':', StringComparison.Ordinal) + 1;
        return text[..at]
            + string.Concat(Enumerable.Repeat("{\"a\":[", depth))
            + string.Concat(Enumerable.Repeat("]}", depth))
            + ", \"x\":"
            + text[at..];
    }
}
