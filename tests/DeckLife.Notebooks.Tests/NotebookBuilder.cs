using System.Text.Json.Nodes;

namespace DeckLife.Notebooks.Tests;

/// <summary>Writes small notebooks for tests.</summary>
internal static class NotebookBuilder
{
    public static NotebookDocument Of(params (string Tag, string Source)[] cells)
    {
        var root = new JsonObject
        {
            ["cells"] = new JsonArray([
                .. cells.Select(
                    (c, i) =>
                        (JsonNode)
                            new JsonObject
                            {
                                ["cell_type"] = c.Tag == "markdown" ? "markdown" : "code",
                                ["id"] = $"cell-{i + 1}",
                                ["metadata"] = c.Tag is "" or "markdown"
                                    ? new JsonObject()
                                    : new JsonObject { ["tags"] = new JsonArray(c.Tag) },
                                ["source"] = c.Source,
                            }
                ),
            ]),
            ["metadata"] = new JsonObject
            {
                ["language_info"] = new JsonObject { ["name"] = "C#" },
                ["custom"] = new JsonObject { ["kept"] = true },
            },
            ["nbformat"] = 4,
            ["nbformat_minor"] = 5,
        };
        foreach (
            var cell in root["cells"]!.AsArray().Where(c => c!["cell_type"]!.ToString() == "code")
        )
        {
            cell!["execution_count"] = null;
            cell["outputs"] = new JsonArray();
        }

        return NotebookDocument.Parse(root.ToJsonString(), "test.ipynb");
    }
}
