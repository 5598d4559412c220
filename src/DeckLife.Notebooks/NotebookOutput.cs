using System.Collections.Immutable;
using System.Text.Json.Nodes;

namespace DeckLife.Notebooks;

/// <summary>One output of a code cell.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Data">Its text by media type; a stream has one, <c>text/plain</c>.</param>
public sealed record NotebookOutput(
    NotebookOutputKind Kind,
    ImmutableSortedDictionary<string, string> Data
)
{
    /// <summary>Name of an error.</summary>
    public string? ErrorName { get; init; }

    /// <summary>The text of a media type, or nothing.</summary>
    /// <param name="mediaType">The media type.</param>
    public string? this[string mediaType] => Data.GetValueOrDefault(mediaType);

    /// <summary>Makes an output with one plain text.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="text">The text.</param>
    public static NotebookOutput Plain(NotebookOutputKind kind, string text) =>
        new(
            kind,
            ImmutableSortedDictionary
                .Create<string, string>(StringComparer.Ordinal)
                .Add("text/plain", text)
        );

    internal static NotebookOutput FromJson(JsonObject node)
    {
        switch (node["output_type"]?.ToString())
        {
            case "stream":
                return Plain(
                    node["name"]?.ToString() == "stderr"
                        ? NotebookOutputKind.StandardError
                        : NotebookOutputKind.StandardOutput,
                    NotebookText.Joined(node["text"])
                );
            case "error":
                return Plain(NotebookOutputKind.Error, node["evalue"]?.ToString() ?? "") with
                {
                    ErrorName = node["ename"]?.ToString(),
                };
            default:
                return new(
                    node["output_type"]?.ToString() == "execute_result"
                        ? NotebookOutputKind.Result
                        : NotebookOutputKind.Display,
                    (node["data"] as JsonObject ?? []).ToImmutableSortedDictionary(
                        p => p.Key,
                        p => NotebookText.Joined(p.Value),
                        StringComparer.Ordinal
                    )
                );
        }
    }

    internal JsonObject ToJson(int? executionCount)
    {
        var text = this["text/plain"] ?? "";
        if (Kind is NotebookOutputKind.StandardOutput or NotebookOutputKind.StandardError)
        {
            return new JsonObject
            {
                ["output_type"] = "stream",
                ["name"] = Kind == NotebookOutputKind.StandardOutput ? "stdout" : "stderr",
                ["text"] = NotebookText.Lines(text),
            };
        }

        if (Kind == NotebookOutputKind.Error)
        {
            return new JsonObject
            {
                ["output_type"] = "error",
                ["ename"] = ErrorName ?? "Error",
                ["evalue"] = text,
                ["traceback"] = new JsonArray((JsonNode)text),
            };
        }

        var data = new JsonObject();
        foreach (var (mediaType, value) in Data)
        {
            data[mediaType] = NotebookText.Lines(value);
        }

        var output = new JsonObject
        {
            ["output_type"] = Kind == NotebookOutputKind.Result ? "execute_result" : "display_data",
            ["data"] = data,
            ["metadata"] = new JsonObject(),
        };
        if (Kind == NotebookOutputKind.Result)
        {
            output["execution_count"] = executionCount;
        }

        return output;
    }
}
