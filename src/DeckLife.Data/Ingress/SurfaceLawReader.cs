using System.Collections.Immutable;
using DeckLife.Quantities;
using DeckLife.Transport;

namespace DeckLife.Data.Ingress;

/// <summary>Reads a surface law.</summary>
internal static class SurfaceLawReader
{
    private static readonly string[] Laws =
    [
        "constant",
        "linear",
        "square-root",
        "exponential",
        "table",
        "seasonal",
        "sealed",
    ];

    public static SurfaceLaw? Read(JsonObjectReader reader)
    {
        var name = reader.Text("law");
        if (name is null)
        {
            return null;
        }

        if (!Laws.Contains(name, StringComparer.Ordinal))
        {
            var nearest = NearestName.Of(name, Laws);
            reader.Reject(
                reader.Path("law"),
                $"\"{name}\" is not known; known are {string.Join(", ", Laws)}."
                    + (nearest is null ? "" : $" Did you mean '{nearest}'?")
            );
            return null;
        }

        if (name == "sealed")
        {
            return ReadSealed(reader);
        }

        var leak = reader.Number("leakFraction", 0, 1, isRequired: false) ?? 1;
        var convection =
            reader.Quantity<Depth>("convectionDepth", Depth.TryParse, isRequired: false) ?? default;
        SurfaceLaw? law = name switch
        {
            "constant" => Content(reader) is { } c ? new ConstantSurface(c) : null,
            "linear" => ReadGrowing(reader, 1, "/yr"),
            "square-root" => ReadGrowing(reader, 0.5, "/yr0.5"),
            "exponential" => ReadExponential(reader),
            "table" => ReadTable(reader),
            _ => ReadSeasonal(reader),
        };
        reader.Close();
        return law is null ? null : law with { LeakFraction = leak, ConvectionDepth = convection };
    }

    // A membrane that leaks lets a share of a content through; one that does not has no content.
    private static SurfaceLaw? ReadSealed(JsonObjectReader reader)
    {
        if (reader.Number("leakFraction", 0, 1, isRequired: false) is not { } leak)
        {
            reader.Close();
            return new SealedSurface();
        }

        var content = Content(reader);
        reader.Close();
        return leak == 0 ? new SealedSurface()
            : content is { } c ? new ConstantSurface(c) { LeakFraction = leak }
            : null;
    }

    private static ChlorideContent? Content(JsonObjectReader reader, string key = "content") =>
        reader.Quantity<ChlorideContent>(key, ChlorideContent.TryParse);

    private static GrowingSurface? ReadGrowing(
        JsonObjectReader reader,
        double exponent,
        string perTime
    )
    {
        if (reader.Has("rate"))
        {
            if (reader.Has("content") || reader.Has("plateau"))
            {
                reader.Reject(
                    reader.Path("rate"),
                    "give either a rate, or content and plateau, not both."
                );
                return null;
            }

            return
                reader.Quantity<ChlorideContent>(
                    "rate",
                    (string text, out ChlorideContent value, out string? problem) =>
                        TryParseRate(text, perTime, out value, out problem)
                )
                    is { } rate
                ? GrowingSurface.WithRate(rate.KilogramsPerCubicMetre, exponent)
                : null;
        }

        var content = Content(reader);
        var plateau = reader.Quantity<Age>("plateau", Age.TryParse);
        if (plateau is { Years: 0 })
        {
            reader.Reject(reader.Path("plateau"), "it must be greater than 0.");
            return null;
        }

        return content is { } c && plateau is { } p
            ? GrowingSurface.ToPlateau(c, p, exponent)
            : null;
    }

    private static bool TryParseRate(
        string text,
        string perTime,
        out ChlorideContent value,
        out string? problem
    )
    {
        var trimmed = text.Trim();
        if (
            trimmed.EndsWith(perTime, StringComparison.Ordinal)
            && ChlorideContent.TryParse(trimmed[..^perTime.Length], out value, out problem)
        )
        {
            return true;
        }

        value = default;
        problem = $"'{text}' is not a rate: write a number and kg/m3{perTime} or lb/yd3{perTime}.";
        return false;
    }

    private static ExponentialSurface? ReadExponential(JsonObjectReader reader)
    {
        var content = Content(reader);
        var constant = reader.Quantity<Age>("timeConstant", Age.TryParse);
        if (constant is { Years: 0 })
        {
            reader.Reject(reader.Path("timeConstant"), "it must be greater than 0.");
            return null;
        }

        return content is { } c && constant is { } t ? new ExponentialSurface(c, t) : null;
    }

    private static TabulatedSurface? ReadTable(JsonObjectReader reader)
    {
        var times = IngressCaseReader.ReadList<Age>(reader, "times", Age.TryParse);
        var contents = IngressCaseReader.ReadList<ChlorideContent>(
            reader,
            "contents",
            ChlorideContent.TryParse
        );
        try
        {
            return new TabulatedSurface(
                [.. times.Select(t => t.Value)],
                [.. contents.Select(c => c.Value)]
            );
        }
        catch (ArgumentException e)
        {
            reader.Reject(reader.Path("times"), e.Message);
            return null;
        }
    }

    private static SeasonalSurface? ReadSeasonal(JsonObjectReader reader)
    {
        var content = Content(reader);
        var off = Content(reader, "offContent");
        var zero = reader.Required("timeZeroMonth") is { } element
            ? MonthReader.Read(reader, element, reader.Path("timeZeroMonth"))
            : null;
        var months = ImmutableArray.CreateBuilder<int>();
        var elements = reader.Array("months") ?? [];
        for (var i = 0; i < elements.Count; i++)
        {
            if (MonthReader.Read(reader, elements[i], $"{reader.Path("months")}[{i}]") is { } month)
            {
                months.Add(month);
            }
        }

        return content is { } on && off is { } rest && zero is { } start && months.Count > 0
            ? new SeasonalSurface(on, months.ToImmutable(), rest, start)
            : null;
    }
}
