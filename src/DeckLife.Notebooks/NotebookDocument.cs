using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace DeckLife.Notebooks;

/// <summary>A Jupyter notebook (nbformat 4) held as JSON, so that what is not understood stays as it was.</summary>
public sealed class NotebookDocument
{
    private static readonly JsonWriterOptions Layout = new()
    {
        Indented = true,
        IndentCharacter = ' ',
        IndentSize = 1,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private readonly JsonObject root;

    private NotebookDocument(JsonObject root, string name)
    {
        this.root = root;
        Name = name;
        Cells =
        [
            .. root["cells"]!
                .AsArray()
                .Select((cell, index) => new NotebookCell(cell!.AsObject(), index + 1)),
        ];
    }

    /// <summary>The notebook's file name, for messages.</summary>
    public string Name { get; }

    /// <summary>The cells, in order.</summary>
    public ImmutableArray<NotebookCell> Cells { get; }

    /// <summary>Reads a notebook from its file.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="NotebookException">The file is not a C# notebook of nbformat 4.</exception>
    /// <exception cref="IOException">The file can't be read.</exception>
    public static NotebookDocument Load(string path) =>
        Parse(File.ReadAllText(path), Path.GetFileName(path));

    /// <summary>Reads a notebook from its text.</summary>
    /// <param name="json">The text.</param>
    /// <param name="name">A name for messages.</param>
    /// <exception cref="NotebookException">The text is not a C# notebook of nbformat 4.</exception>
    public static NotebookDocument Parse(string json, string name)
    {
        JsonNode? node;
        try
        {
            node = JsonNode.Parse(json);
        }
        catch (JsonException e)
        {
            throw new NotebookException($"{name} is not a notebook: {e.Message}", e);
        }

        if (
            node is not JsonObject root
            || root["nbformat"]?.GetValueKind() != JsonValueKind.Number
            || root["nbformat"]!.GetValue<int>() != 4
            || root["cells"] is not JsonArray cells
            || cells.Any(c => c is not JsonObject cell || cell["cell_type"] is null)
        )
        {
            throw new NotebookException(
                $"{name} is not a notebook: nbformat 4 with a list of cells is expected."
            );
        }

        var language = root["metadata"]?["language_info"]?["name"]?.ToString() ?? "C#";
        return language is "C#" or "csharp"
            ? new NotebookDocument(root, name)
            : throw new NotebookException(
                $"{name} is a notebook in {language}; only C# notebooks can run here."
            );
    }

    /// <summary>The notebook as the bytes of an .ipynb file: one space of indent, a line end at the end, the same for the same content.</summary>
    public byte[] ToBytes()
    {
        using var buffer = new MemoryStream();
        using (var writer = new Utf8JsonWriter(buffer, Layout))
        {
            root.WriteTo(writer);
        }

        buffer.Write(Encoding.UTF8.GetBytes("\n"));
        return buffer.ToArray();
    }

    /// <summary>A copy with no outputs and no execution counts, as notebooks are kept under version control.</summary>
    public NotebookDocument Cleared()
    {
        var copy = new NotebookDocument((JsonObject)root.DeepClone(), Name);
        foreach (var cell in copy.Cells.Where(c => c.IsCode))
        {
            cell.SetOutputs(null, []);
        }

        return copy;
    }
}
