using System.Collections.Immutable;
using System.Text.Json.Nodes;

namespace DeckLife.Notebooks;

/// <summary>One cell of a notebook.</summary>
public sealed class NotebookCell
{
    private readonly JsonObject node;

    internal NotebookCell(JsonObject node, int number)
    {
        this.node = node;
        Number = number;
    }

    /// <summary>Its place in the notebook, the first cell being 1.</summary>
    public int Number { get; }

    /// <summary>Whether it holds code.</summary>
    public bool IsCode => node["cell_type"]!.ToString() == "code";

    /// <summary>Whether it holds Markdown.</summary>
    public bool IsMarkdown => node["cell_type"]!.ToString() == "markdown";

    /// <summary>Its tags.</summary>
    public ImmutableArray<string> Tags =>
        [.. (node["metadata"]?["tags"] as JsonArray ?? []).Select(t => t!.ToString())];

    /// <summary>Its source text.</summary>
    public string Source => NotebookText.Joined(node["source"]);

    /// <summary>The count that Jupyter shows as In [n]; absent when the cell did not run.</summary>
    public int? ExecutionCount => (int?)node["execution_count"];

    /// <summary>Its outputs.</summary>
    public ImmutableArray<NotebookOutput> Outputs =>
        [
            .. (node["outputs"] as JsonArray ?? []).Select(o =>
                NotebookOutput.FromJson(o!.AsObject())
            ),
        ];

    internal void SetSource(string source) => node["source"] = NotebookText.Lines(source);

    internal void SetOutputs(int? executionCount, IEnumerable<NotebookOutput> outputs)
    {
        node["execution_count"] = executionCount;
        node["outputs"] = new JsonArray([.. outputs.Select(o => o.ToJson(executionCount))]);
    }
}
