using System.Text;
using Xunit;

namespace DeckLife.Notebooks.Tests;

public class NotebookDocumentTests
{
    [Theory]
    [InlineData("not json")]
    [InlineData("[]")]
    [InlineData("{\"nbformat\": 3, \"cells\": []}")]
    [InlineData("{\"nbformat\": 4}")]
    [InlineData("{\"nbformat\": 4, \"cells\": [1]}")]
    [InlineData(
        "{\"nbformat\": 4, \"cells\": [], \"metadata\": {\"language_info\": {\"name\": \"python\"}}}"
    )]
    public void Parse_NotACSharpNotebook_ErrorNamesTheFile(string json)
    {
        var e = Assert.Throws<NotebookException>(() => NotebookDocument.Parse(json, "odd.ipynb"));
        Assert.Contains("odd.ipynb", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ToBytes_RoundTrip_SameBytesAndUnknownFieldsKept()
    {
        var notebook = NotebookBuilder.Of(("markdown", "# D in mm²/yr <b>"), ("", "1"));
        var bytes = notebook.ToBytes();
        var text = Encoding.UTF8.GetString(bytes);

        Assert.Contains("mm²/yr <b>", text, StringComparison.Ordinal);
        Assert.Contains("\"kept\": true", text, StringComparison.Ordinal);
        Assert.EndsWith("}\n", text, StringComparison.Ordinal);
        Assert.Equal(bytes, NotebookDocument.Parse(text, "again").ToBytes());
    }

    [Fact]
    public void Cleared_ExecutedNotebook_LosesOutputsOnly()
    {
        var notebook = NotebookBuilder.Of(("", "1"));
        var executed = notebook.Cleared();
        executed
            .Cells[0]
            .SetOutputs(1, [NotebookOutput.Plain(NotebookOutputKind.StandardOutput, "a\nb")]);

        Assert.Equal("a\nb", executed.Cells[0].Outputs[0]["text/plain"]);
        Assert.Equal(notebook.ToBytes(), executed.Cleared().ToBytes());
    }
}
