using System.Text.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Ingress;

/// <summary>
/// Reads one JSON object strictly: each key is asked for by name, problems are collected with the object's place in the
/// file, and what was never asked for is an unknown key.
/// </summary>
internal sealed class JsonObjectReader
{
    private readonly JsonElement _element;
    private readonly string _place;
    private readonly List<Diagnostic> _problems;
    private readonly List<string> _asked = [];

    public JsonObjectReader(JsonElement element, string place, List<Diagnostic> problems)
    {
        _element = element;
        _place = place;
        _problems = problems;
        IsObject = element.ValueKind == JsonValueKind.Object;
        if (!IsObject)
        {
            Reject(place, $"an object is expected, found {Kind(element)}.");
        }
    }

    public delegate bool Parser<T>(string text, out T value, out string? problem);

    public bool IsObject { get; }

    public bool Has(string key)
    {
        _asked.Add(key);
        return IsObject && _element.TryGetProperty(key, out _);
    }

    /// <summary>The element of a key; a missing one is a problem.</summary>
    public JsonElement? Required(string key)
    {
        if (Optional(key) is { } element)
        {
            return element;
        }

        if (IsObject)
        {
            _problems.Add(DiagnosticCatalogue.IngressMissingKey.With(_place, key));
        }

        return null;
    }

    public JsonElement? Optional(string key)
    {
        _asked.Add(key);
        return IsObject && _element.TryGetProperty(key, out var element) ? element : null;
    }

    /// <summary>A quantity written as a string with its unit.</summary>
    public T? Quantity<T>(string key, Parser<T> parser, bool isRequired = true)
        where T : struct
    {
        var element = isRequired ? Required(key) : Optional(key);
        return element is { } value ? Parse(value, Path(key), parser) : null;
    }

    public T? Parse<T>(JsonElement element, string path, Parser<T> parser)
        where T : struct
    {
        if (element.ValueKind != JsonValueKind.String)
        {
            Reject(
                path,
                $"a quantity is a string with its unit, such as \"2.5 in\"; found {Kind(element)}."
            );
            return null;
        }

        if (parser(element.GetString()!, out var value, out var problem))
        {
            return value;
        }

        Reject(path, problem ?? "it can't be read.");
        return null;
    }

    public double? Number(string key, double least, double most, bool isRequired = true)
    {
        var element = isRequired ? Required(key) : Optional(key);
        if (element is not { } value)
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.Number || !value.TryGetDouble(out var number))
        {
            Reject(Path(key), $"a plain number is expected, found {Kind(value)}.");
            return null;
        }

        if (!(number >= least && number <= most))
        {
            Reject(
                Path(key),
                FormattableString.Invariant(
                    $"{number} is not allowed: it lies between {least} and {most}."
                )
            );
            return null;
        }

        return number;
    }

    public string? Text(string key, bool isRequired = true)
    {
        var element = isRequired ? Required(key) : Optional(key);
        if (element is not { } value)
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.String)
        {
            Reject(Path(key), $"a string is expected, found {Kind(value)}.");
            return null;
        }

        return value.GetString();
    }

    public IReadOnlyList<JsonElement>? Array(string key, bool isRequired = true)
    {
        var element = isRequired ? Required(key) : Optional(key);
        if (element is not { } value)
        {
            return null;
        }

        if (value.ValueKind != JsonValueKind.Array || value.GetArrayLength() == 0)
        {
            Reject(Path(key), $"a list with at least one entry is expected, found {Kind(value)}.");
            return null;
        }

        return [.. value.EnumerateArray()];
    }

    public JsonObjectReader? Object(string key, bool isRequired = true)
    {
        var element = isRequired ? Required(key) : Optional(key);
        return element is { } value ? new JsonObjectReader(value, Path(key), _problems) : null;
    }

    public JsonObjectReader At(string key, int index, JsonElement element) =>
        new(element, $"{Path(key)}[{index}]", _problems);

    public string Path(string key) => _place.Length == 0 ? key : $"{_place}.{key}";

    public void Reject(string path, string problem) =>
        _problems.Add(
            DiagnosticCatalogue.IngressUnusableValue.With(
                path.Length == 0 ? "the case" : path,
                // What is allowed may be a long list; what was found instead may be anything.
                ProblemList.Shorten(problem, longest: 1500)
            )
        );

    /// <summary>Reports the keys that nothing asked for.</summary>
    public void Close()
    {
        if (!IsObject)
        {
            return;
        }

        var known = _asked.Distinct().ToArray();
        foreach (var property in _element.EnumerateObject())
        {
            if (known.Contains(property.Name, StringComparer.Ordinal))
            {
                continue;
            }

            var nearest = NearestName.Of(property.Name, known);
            _problems.Add(
                DiagnosticCatalogue.IngressUnknownKey.With(
                    _place.Length == 0 ? "the case" : _place,
                    ProblemList.Shorten(property.Name),
                    string.Join(", ", known),
                    nearest is null ? "" : $" Did you mean '{nearest}'?"
                )
            );
        }
    }

    internal static string Kind(JsonElement element) =>
        element.ValueKind switch
        {
            JsonValueKind.Object => "an object",
            JsonValueKind.Array => "a list",
            JsonValueKind.String => $"the string \"{ProblemList.Shorten(element.GetString()!)}\"",
            JsonValueKind.Number => $"the number {ProblemList.Shorten(element.GetRawText())}",
            JsonValueKind.Null => "null",
            _ => element.GetRawText(),
        };
}
