using System.Text.Json;

namespace DeckLife.Data.Json;

/// <summary>A value of a JSON file with its line, so that a message can point at it.</summary>
internal sealed class JsonItem(JsonValueKind kind, int line, string text)
{
    /// <summary>What it is.</summary>
    public JsonValueKind Kind => kind;

    /// <summary>The line of the file.</summary>
    public int Line => line;

    /// <summary>The text of a string or number.</summary>
    public string Text => text;

    /// <summary>Members of an object, in the order of the file.</summary>
    public List<(string Key, int Line, JsonItem Value)> Members { get; } = [];

    /// <summary>Items of an array.</summary>
    public List<JsonItem> Items { get; } = [];

    /// <summary>The member of a name, or none.</summary>
    public JsonItem? this[string key] => Members.Find(m => m.Key == key).Value;

    /// <summary>How it is shown in a message.</summary>
    public string Show() =>
        kind switch
        {
            JsonValueKind.Object => "{ … }",
            JsonValueKind.Array => "[ … ]",
            _ => text,
        };
}
