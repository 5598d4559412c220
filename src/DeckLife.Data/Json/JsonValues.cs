using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Quantities;

namespace DeckLife.Data.Json;

/// <summary>Reads the values of a JSON tree whose structure has been checked; each problem is reported at its key.</summary>
internal sealed class JsonValues(ProblemList problems)
{
    public ProblemList Problems => problems;

    public static string? Text(JsonItem? item, string key) =>
        item?[key] is { Kind: JsonValueKind.String } value ? value.Text.Trim() : null;

    /// <summary>A measured value in the canonical unit of its dimension.</summary>
    public double? Measure(
        JsonItem? item,
        string path,
        string key,
        Dimension dimension,
        double least,
        double most,
        string allowed
    ) =>
        item?[key] is { Kind: JsonValueKind.String } value
            ? Measure(value, JsonCheck.Path(path, key), dimension, least, most, allowed)
            : null;

    public double? Measure(
        JsonItem value,
        string path,
        Dimension dimension,
        double least,
        double most,
        string allowed
    )
    {
        double canonical;
        if (
            dimension == Dimension.Length
            && QuantityText.TryParseDepth(value.Text, out var depth, out _)
        )
        {
            canonical = depth.Millimetres;
        }
        else if (
            !QuantityText.TryParseMeasure(value.Text, dimension, out canonical, out var problem)
        )
        {
            problems.Add(
                DiagnosticCatalogue.QuantityUnreadable,
                value.Line,
                path,
                value.Text,
                path,
                problem
            );
            return null;
        }

        return InRange(canonical, value, path, least, most, allowed);
    }

    public double? Chloride(JsonItem? item, string path, string key, ConcreteMix mix) =>
        item?[key] is { Kind: JsonValueKind.String } value
            ? Chloride(value, JsonCheck.Path(path, key), mix)
            : null;

    public double? Chloride(JsonItem value, string path, ConcreteMix mix)
    {
        if (
            !QuantityText.TryParseStatedChloride(
                value.Text,
                ChlorideExtraction.NotStated,
                out var stated,
                out var problem
            )
        )
        {
            problems.Add(
                DiagnosticCatalogue.QuantityUnreadable,
                value.Line,
                path,
                value.Text,
                path,
                problem
            );
            return null;
        }

        if (!stated.TryToContent(mix, out var content, out problem))
        {
            problems.Add(
                DiagnosticCatalogue.MixMissing,
                value.Line,
                path,
                value.Text,
                $"{path}: {problem}",
                stated.Basis == ChlorideBasis.ConcreteMass
                    ? "concrete.density"
                    : "concrete.binderContent"
            );
            return null;
        }

        return InRange(
            content.KilogramsPerCubicMetre,
            value,
            path,
            0,
            60,
            "a chloride content lies between 0 and 60 kg/m3 (100 lb/yd3)"
        );
    }

    /// <summary>A value with its spread; the mean is read by the caller's reader.</summary>
    public UncertainValue? Uncertain(
        JsonItem? item,
        string path,
        string key,
        Func<JsonItem, string, double?> mean
    )
    {
        var here = JsonCheck.Path(path, key);
        if (item?[key] is not { } value)
        {
            return null;
        }

        if (value.Kind == JsonValueKind.String)
        {
            return mean(value, here) is { } exact ? UncertainValue.Exactly(exact) : null;
        }

        if (
            value.Kind != JsonValueKind.Object
            || value["mean"] is not { Kind: JsonValueKind.String } meanItem
        )
        {
            return null;
        }

        var m = mean(meanItem, here + ".mean");
        var cov = Fraction(
            value,
            here,
            "cov",
            0,
            3,
            "a coefficient of variation lies between 0 and 3"
        );
        var shape =
            Text(value, "distribution") == "normal" ? SpreadShape.Normal : SpreadShape.Lognormal;
        if (m is 0 && cov > 0)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityImpossible,
                meanItem.Line,
                here,
                meanItem.Text,
                here,
                meanItem.Text,
                "a mean of 0 has no coefficient of variation"
            );
            return null;
        }

        return m is { } a && cov is { } c ? new UncertainValue(a, c, shape) : null;
    }

    /// <summary>A fraction: 0.1, or "10 %".</summary>
    public double? Fraction(
        JsonItem? item,
        string path,
        string key,
        double least,
        double most,
        string allowed
    )
    {
        if (item?[key] is not { } value)
        {
            return null;
        }

        var here = JsonCheck.Path(path, key);
        var text = value.Text.Trim();
        var percent = value.Kind == JsonValueKind.String && text.EndsWith('%');
        if (value.Kind is not (JsonValueKind.String or JsonValueKind.Number))
        {
            return null;
        }

        if (
            !NumberText.TryParse(
                percent ? text[..^1] : text,
                DecimalMark.Unknown,
                false,
                out var number,
                out var problem
            )
        )
        {
            problems.Add(
                DiagnosticCatalogue.QuantityUnreadable,
                value.Line,
                here,
                text,
                here,
                $"'{text}' can't be read: {problem}."
            );
            return null;
        }

        return InRange(percent ? number / 100 : number, value, here, least, most, allowed);
    }

    public double? Number(
        JsonItem? item,
        string path,
        string key,
        double least,
        double most,
        string allowed
    )
    {
        if (item?[key] is not { Kind: JsonValueKind.Number } value)
        {
            return null;
        }

        var here = JsonCheck.Path(path, key);
        return InRange(
            double.Parse(value.Text, NumberStyles.Float, CultureInfo.InvariantCulture),
            value,
            here,
            least,
            most,
            allowed
        );
    }

    public long? Whole(JsonItem? item, string path, string key, long least, long most)
    {
        if (item?[key] is not { Kind: JsonValueKind.Number } value)
        {
            return null;
        }

        if (
            long.TryParse(
                value.Text,
                NumberStyles.AllowLeadingSign,
                CultureInfo.InvariantCulture,
                out var whole
            )
            && whole >= least
            && whole <= most
        )
        {
            return whole;
        }

        var here = JsonCheck.Path(path, key);
        problems.Add(
            DiagnosticCatalogue.QuantityImpossible,
            value.Line,
            here,
            value.Text,
            here,
            value.Text,
            string.Create(
                CultureInfo.InvariantCulture,
                $"a whole number from {least} to {most} is needed"
            )
        );
        return null;
    }

    public DateOnly? Date(JsonItem? item, string path, string key)
    {
        if (item?[key] is not { Kind: JsonValueKind.String } value)
        {
            return null;
        }

        if (DateText.TryParse(value.Text, out var date, out var problem))
        {
            return date;
        }

        problems.Add(
            DiagnosticCatalogue.DateUnclear,
            value.Line,
            JsonCheck.Path(path, key),
            value.Text,
            value.Text,
            problem
        );
        return null;
    }

    /// <summary>The items of an array of objects with their paths.</summary>
    public static ImmutableArray<(JsonItem Item, string Path)> Objects(
        JsonItem? item,
        string path,
        string key
    ) =>
        item?[key] is { Kind: JsonValueKind.Array } array
            ?
            [
                .. array
                    .Items.Select(
                        (i, n) =>
                            (
                                i,
                                string.Create(
                                    CultureInfo.InvariantCulture,
                                    $"{JsonCheck.Path(path, key)}[{n}]"
                                )
                            )
                    )
                    .Where(t => t.i.Kind == JsonValueKind.Object),
            ]
            : [];

    public static JsonItem? Object(JsonItem? item, string key) =>
        item?[key] is { Kind: JsonValueKind.Object } value ? value : null;

    private double? InRange(
        double number,
        JsonItem value,
        string path,
        double least,
        double most,
        string allowed
    )
    {
        if (double.IsFinite(number) && number >= least && number <= most)
        {
            return number;
        }

        problems.Add(
            DiagnosticCatalogue.QuantityImpossible,
            value.Line,
            path,
            value.Text,
            path,
            value.Text,
            allowed
        );
        return null;
    }
}
