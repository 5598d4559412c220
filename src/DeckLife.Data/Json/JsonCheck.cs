using System.Globalization;
using System.Text.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Json;

/// <summary>Holds a JSON tree against its known keys: unknown and missing keys, values of the wrong shape.</summary>
internal static class JsonCheck
{
    /// <summary>Reports every fault of structure; values of quantities are left to their reader.</summary>
    public static void Check(
        JsonItem item,
        IReadOnlyList<JsonKey> keys,
        string path,
        ProblemList problems
    )
    {
        foreach (var (key, line, value) in item.Members)
        {
            var known = keys.FirstOrDefault(k => k.Name == key);
            var here = Path(path, key);
            if (known is null)
            {
                var near = NearestName.Of(key, keys.Select(k => k.Name));
                problems.Add(
                    DiagnosticCatalogue.KeyUnknown,
                    line,
                    here,
                    key,
                    key,
                    path.Length == 0 ? "the top" : path,
                    near is null
                        ? "Allowed are " + string.Join(", ", keys.Select(k => k.Name)) + "."
                        : $"Did you mean '{near}'?"
                );
                continue;
            }

            CheckValue(value, known, here, problems);
        }

        foreach (var key in keys.Where(k => k.IsRequired && item[k.Name] is null))
        {
            problems.Add(
                DiagnosticCatalogue.KeyMissing,
                item.Line,
                Path(path, key.Name),
                null,
                Path(path, key.Name),
                key.Description,
                Example(key)
            );
        }
    }

    public static string Path(string path, string key) => path.Length == 0 ? key : $"{path}.{key}";

    private static void CheckValue(JsonItem value, JsonKey key, string path, ProblemList problems)
    {
        switch (key.Shape)
        {
            case JsonShape.Object when value.Kind == JsonValueKind.Object:
                Check(value, key.Keys!, path, problems);
                return;
            case JsonShape.Objects when value.Kind == JsonValueKind.Array:
                for (var i = 0; i < value.Items.Count; i++)
                {
                    var at = string.Create(CultureInfo.InvariantCulture, $"{path}[{i}]");
                    if (value.Items[i].Kind == JsonValueKind.Object)
                    {
                        Check(value.Items[i], key.Keys!, at, problems);
                    }
                    else
                    {
                        Wrong(value.Items[i], at, "an object { … }", problems);
                    }
                }

                return;
            case JsonShape.Uncertain when value.Kind == JsonValueKind.Object:
                Check(value, Uncertain, path, problems);
                return;
            case JsonShape.Assumable when value.Kind == JsonValueKind.Object:
                Check(value, Assumable, path, problems);
                return;
            case JsonShape.TextMap when value.Kind == JsonValueKind.Object:
                foreach (
                    var (k, _, v) in value.Members.Where(m => m.Value.Kind != JsonValueKind.String)
                )
                {
                    Wrong(v, Path(path, k), "a text", problems);
                }

                return;
            case JsonShape.Choice when value.Kind == JsonValueKind.String:
                if (!key.Choices!.Contains(value.Text))
                {
                    var near = NearestName.Of(value.Text, key.Choices!);
                    problems.Add(
                        DiagnosticCatalogue.ChoiceUnknown,
                        value.Line,
                        path,
                        value.Text,
                        path,
                        value.Text,
                        string.Join(", ", key.Choices!),
                        near is null ? "" : $" Did you mean '{near}'?"
                    );
                }

                return;
            case JsonShape.Text
            or JsonShape.Quantity
            or JsonShape.Uncertain
            or JsonShape.Assumable
            or JsonShape.Date
            or JsonShape.Fraction
            or JsonShape.Price when value.Kind == JsonValueKind.String:
                if (value.Text.Trim().Length == 0 && key.Name != "story")
                {
                    Wrong(
                        value,
                        path,
                        $"a text that is not empty, for example {Example(key)}",
                        problems
                    );
                }
                else if (value.Text.Any(UnseenCharacter.Is))
                {
                    Wrong(
                        value,
                        path,
                        "a text without control characters and marks of direction, which can't be seen: type it anew",
                        problems
                    );
                }

                return;
            case JsonShape.Number
            or JsonShape.Whole
            or JsonShape.Fraction when value.Kind == JsonValueKind.Number:
                return;
            case JsonShape.Quantity
            or JsonShape.Uncertain
            or JsonShape.Assumable
            or JsonShape.Price when value.Kind == JsonValueKind.Number:
                problems.Add(
                    DiagnosticCatalogue.QuantityWithoutUnit,
                    value.Line,
                    path,
                    value.Text,
                    path,
                    value.Text,
                    $"\"{key.Example ?? "2 in"}\""
                );
                return;
            default:
                Wrong(
                    value,
                    path,
                    key.Shape switch
                    {
                        JsonShape.Object or JsonShape.TextMap => "an object { … }",
                        JsonShape.Objects => "a list of objects [ { … } ]",
                        JsonShape.Number => "a number",
                        JsonShape.Whole => "a whole number",
                        JsonShape.Fraction => "a fraction such as 0.10, or \"10 %\"",
                        JsonShape.Choice => "one of " + string.Join(", ", key.Choices!),
                        _ => $"a text in quotes, for example {Example(key)}",
                    },
                    problems
                );
                return;
        }
    }

    private static void Wrong(JsonItem value, string path, string allowed, ProblemList problems) =>
        problems.Add(
            DiagnosticCatalogue.ShapeWrong,
            value.Line,
            path,
            value.Show(),
            path,
            value.Show(),
            allowed
        );

    internal static string Example(JsonKey key) =>
        key.Shape switch
        {
            JsonShape.Object or JsonShape.TextMap => "{ … }",
            JsonShape.Objects => "[ { … } ]",
            JsonShape.Choice => $"\"{key.Choices![0]}\"",
            JsonShape.Date => "\"2031-06-15\"",
            JsonShape.Number => "0.3",
            JsonShape.Whole => "2031",
            _ => $"\"{key.Example ?? "…"}\"",
        };

    /// <summary>Keys of a value with spread.</summary>
    public static readonly JsonKey[] Uncertain =
    [
        new("mean", JsonShape.Quantity, "Mean.", true, Example: "1.2 lb/yd3"),
        new(
            "cov",
            JsonShape.Fraction,
            "Coefficient of variation: standard deviation divided by the mean.",
            true,
            Example: "25 %"
        ),
        new(
            "distribution",
            JsonShape.Choice,
            "Shape of the spread; absent: lognormal.",
            Choices: ["lognormal", "normal"]
        ),
    ];

    /// <summary>Keys of a value that is assumed.</summary>
    public static readonly JsonKey[] Assumable =
    [
        new(
            "assumed",
            JsonShape.Quantity,
            "The value, taken for granted and reported with its effect.",
            true,
            Example: "3915 lb/yd3"
        ),
        new("source", JsonShape.Text, "Why this value."),
    ];
}
