using System.Collections.Immutable;
using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Transport;

namespace DeckLife.Data.Ingress;

/// <summary>Reads the JSON of <c>decklife ingress</c>: strictly, every problem at once, nothing guessed.</summary>
public static class IngressCaseReader
{
    /// <summary>Reads a case.</summary>
    /// <param name="json">The text of the file.</param>
    public static IngressReading Read(string json)
    {
        ArgumentNullException.ThrowIfNull(json);
        var problems = new List<Diagnostic>();
        IngressCase? found = null;
        try
        {
            using var document = StrictDocument.Parse(json);
            found = ReadCase(document.RootElement, problems);
        }
        catch (JsonException e)
        {
            problems.Add(DiagnosticCatalogue.IngressNotJson.With(ProblemList.Shorten(e.Message)));
        }

        if (problems.Count == 0 && found is not null)
        {
            problems.AddRange(SectionSolver.Problems(found.Section, found.Queries));
        }

        return new IngressReading(
            problems.Any(p => p.Severity == Severity.Error) ? null : found,
            [.. problems]
        );
    }

    private static IngressCase? ReadCase(JsonElement root, List<Diagnostic> problems)
    {
        var reader = new JsonObjectReader(root, "", problems);
        var layers = new List<ConcreteLayer?>();
        if (reader.Array("layers") is { } elements)
        {
            for (var i = 0; i < elements.Count; i++)
            {
                layers.Add(LayerReader.Read(reader.At("layers", i, elements[i])));
            }
        }

        var surface = reader.Object("surface") is { } face ? SurfaceLawReader.Read(face) : null;
        var bottom = ReadBottom(reader);
        var changes = new List<SectionChange?>();
        if (reader.Array("events", isRequired: false) is { } events)
        {
            for (var i = 0; i < events.Count; i++)
            {
                changes.Add(ReadChange(reader.At("events", i, events[i])));
            }
        }

        TemperatureHistory? temperature = null;
        if (reader.Object("temperature", isRequired: false) is { } history)
        {
            temperature = TemperatureReader.Read(history);
        }

        var queries = ReadQueries(reader);
        reader.Close();
        if (problems.Count > 0)
        {
            return null;
        }

        var section = new Section
        {
            Layers = [.. layers.Select(l => l!)],
            Surface = surface!,
            Bottom = bottom!,
            Changes = [.. changes.Select(c => c!)],
            Temperature = temperature,
        };
        return new IngressCase(
            section,
            [.. queries.Select(q => q.Query)],
            [.. queries.Select(q => q.Depth)],
            [.. queries.Select(q => q.Time)],
            ContentUnit(root)
        );
    }

    private static BottomFace? ReadBottom(JsonObjectReader reader)
    {
        if (reader.Required("bottom") is not { } element)
        {
            return null;
        }

        if (element.ValueKind == JsonValueKind.Object)
        {
            var law = reader.Object("bottom");
            var read = law is null ? null : SurfaceLawReader.Read(law);
            if (read is { ConvectionDepth.Millimetres: > 0 })
            {
                reader.Reject(
                    "bottom.convectionDepth",
                    "a convection zone is taken at the top face only."
                );
                return null;
            }

            return read is null ? null : BottomFace.Exposed(read);
        }

        switch (element.ValueKind == JsonValueKind.String ? element.GetString() : null)
        {
            case "sealed":
                return BottomFace.Sealed;
            case "open":
                return BottomFace.Open;
            default:
                reader.Reject(
                    "bottom",
                    $"\"sealed\", \"open\" or a surface law is expected, found {JsonObjectReader.Kind(element)}."
                );
                return null;
        }
    }

    private static SectionChange? ReadChange(JsonObjectReader reader)
    {
        var at = reader.Quantity<Age>("at", Age.TryParse);
        var remove = reader.Quantity<Depth>("remove", Depth.TryParse, isRequired: false);
        var place = reader.Object("place", isRequired: false) is { } layer
            ? LayerReader.Read(layer)
            : null;
        var surface = reader.Object("surface", isRequired: false) is { } law
            ? SurfaceLawReader.Read(law)
            : null;
        reader.Close();
        return at is { } time
            ? new SectionChange
            {
                At = time,
                Remove = remove ?? default,
                Place = place,
                Surface = surface,
            }
            : null;
    }

    private static List<(IngressQuery Query, string Depth, string Time)> ReadQueries(
        JsonObjectReader reader
    )
    {
        var found = new List<(IngressQuery, string, string)>();
        if (reader.Array("queries", isRequired: false) is { } pairs)
        {
            if (reader.Has("depths") || reader.Has("times"))
            {
                reader.Reject("queries", "give either queries, or depths and times, not both.");
            }

            for (var i = 0; i < pairs.Count; i++)
            {
                var path = $"queries[{i}]";
                if (pairs[i].ValueKind != JsonValueKind.Array || pairs[i].GetArrayLength() != 2)
                {
                    reader.Reject(path, "a pair is expected: [ \"20 yr\", \"50 mm\" ].");
                    continue;
                }

                var time = reader.Parse<Age>(pairs[i][0], path + "[0]", Age.TryParse);
                var depth = reader.Parse<Depth>(pairs[i][1], path + "[1]", Depth.TryParse);
                if (time is { } t && depth is { } d)
                {
                    found.Add(
                        (new IngressQuery(t, d), pairs[i][1].GetString()!, pairs[i][0].GetString()!)
                    );
                }
            }

            return found;
        }

        if (reader.Has("queries"))
        {
            return found;
        }

        var depths = ReadList<Depth>(reader, "depths", Depth.TryParse);
        foreach (var (time, timeText) in ReadList<Age>(reader, "times", Age.TryParse))
        {
            found.AddRange(depths.Select(d => (new IngressQuery(time, d.Value), d.Text, timeText)));
        }

        return found;
    }

    internal static List<(T Value, string Text)> ReadList<T>(
        JsonObjectReader reader,
        string key,
        JsonObjectReader.Parser<T> parser
    )
        where T : struct
    {
        var found = new List<(T, string)>();
        var elements = reader.Array(key) ?? [];
        for (var i = 0; i < elements.Count; i++)
        {
            if (reader.Parse(elements[i], $"{reader.Path(key)}[{i}]", parser) is { } value)
            {
                found.Add((value, elements[i].GetString()!));
            }
        }

        return found;
    }

    // The unit of the first content in the file, for the text table.
    private static string ContentUnit(JsonElement element)
    {
        string[] units = ["lb/yd3", "lb/cy", "pcy", "kg/m3"];
        var text = element.GetRawText();
        return units
                .Select(u => (Unit: u, Place: text.IndexOf(u + "\"", StringComparison.Ordinal)))
                .Where(u => u.Place >= 0)
                .OrderBy(u => u.Place)
                .Select(u => u.Unit)
                .FirstOrDefault()
            ?? "kg/m3";
    }
}
