using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;

namespace DeckLife.Data.Json;

/// <summary>Every value of a JSON file with its path and line.</summary>
internal static class StatedFieldList
{
    /// <summary>The values, in the order of the file; objects and arrays themselves are not listed.</summary>
    public static ImmutableArray<StatedField> Of(JsonItem root, string file)
    {
        var fields = ImmutableArray.CreateBuilder<StatedField>();
        Add(root, "", file, fields);
        return fields.ToImmutable();
    }

    private static void Add(
        JsonItem item,
        string path,
        string file,
        ImmutableArray<StatedField>.Builder fields
    )
    {
        switch (item.Kind)
        {
            case JsonValueKind.Object:
                foreach (var (key, _, value) in item.Members)
                {
                    Add(value, JsonCheck.Path(path, key), file, fields);
                }

                break;
            case JsonValueKind.Array:
                for (var i = 0; i < item.Items.Count; i++)
                {
                    var at = string.Create(CultureInfo.InvariantCulture, $"{path}[{i}]");
                    Add(item.Items[i], at, file, fields);
                }

                break;
            default:
                fields.Add(new(file, item.Line, path, item.Text));
                break;
        }
    }
}
